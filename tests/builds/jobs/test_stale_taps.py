"""A button does nothing once its job has moved on, and says so."""

import re

import pytest

from builds.steps.actions import steps
from tests.factories import NOW, JobFactory, VehicleFactory


@pytest.fixture
def job(cast, now):
    return JobFactory(
        vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Bleed brakes", made_by=cast.owner
    )


def said(client, answer):
    return client.get(answer["Location"]).content.decode()


def test_done_already_on_a_job_that_another_began_does_nothing(cast, owner, job):
    steps.start(job, by=cast.helper, at=NOW)
    answer = owner.press(f"/jobs/{job.pk}/finish/", {"stood": "open"})
    assert "“Bleed brakes” is in hand now, and was open when this was drawn. Nothing is done: look again." in said(
        owner, answer
    )
    job.refresh_from_db()
    assert (job.state, job.finished_at) == ("in_hand", None)


@pytest.mark.parametrize(
    ("step", "data"), [("start", {}), ("finish", {}), ("drop", {"reason": "no time"}), ("hold", {"reason": "no parts"})]
)
def test_each_step_is_taken_from_the_state_it_was_drawn_in_alone(cast, owner, job, step, data):
    answer = owner.press(f"/jobs/{job.pk}/{step}/", {**data, "stood": "waiting"})
    assert "“Bleed brakes” is open now" in (answer.content.decode() if data else said(owner, answer))
    job.refresh_from_db()
    assert job.state == "open"
    assert owner.press(f"/jobs/{job.pk}/{step}/", {**data, "stood": "open"}).status_code == 303
    job.refresh_from_db()
    assert job.state != "open"


def test_what_was_typed_stays_in_the_form_which_is_drawn_anew(owner, job):
    answer = owner.press(f"/jobs/{job.pk}/drop/", {"reason": "no time at all", "stood": "waiting"})
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "no time at all" in page
    assert 'name="stood" value="open"' in page


def test_a_made_up_state_is_no_state_of_this_job(owner, job):
    answer = owner.press(f"/jobs/{job.pk}/start/", {"stood": "‮<b>"})
    assert "“Bleed brakes” is open now, and was not when this was drawn." in said(owner, answer)


BUTTON = re.compile(
    r'<form\s[^>]*action="/jobs/\d+/(?:start|stop|finish|hold|release|sign|reopen|drop)/".*?</form>', re.S
)


@pytest.mark.parametrize("state", ["open", "in_hand", "waiting", "held", "done"])
def test_every_button_of_a_step_carries_the_state_it_was_drawn_in(cast, owner, job, state):
    if state == "in_hand":
        steps.start(job, by=cast.helper, at=NOW)
    else:
        type(job).objects.filter(pk=job.pk).update(state=state, systems=["brakes"], rank="safety")
    drawn = []
    for path in (f"/jobs/{job.pk}/", f"/cars/{job.vehicle_id}/", "/", f"/jobs/{job.pk}/drop/"):
        drawn += BUTTON.findall(owner.get(path).content.decode())
    assert drawn
    assert [button for button in drawn if f'name="stood" value="{state}"' not in button] == []
