"""The steps of a job: legal ones only, one of two wins, and who did it when is written down."""

import threading
from datetime import timedelta

import pytest
from django.db import OperationalError, connection

from builds.steps.actions import steps
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import JOB_STATES, State
from garage.actions.refused import Refused
from tests.factories import NOW, JobFactory, LinkFactory, MembershipFactory, VehicleFactory


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Weld it")


def tap(client, job, step, **data):
    answer = client.press(f"/jobs/{job.pk}/{step}/", data)
    job.refresh_from_db()
    return answer


def said(client, path="/people/"):
    """The messages that the next page shows."""
    return [str(message) for message in client.get(path).context["messages"]]


def spans(job):
    return [
        (span.state, span.from_at, span.until_at, sorted(each.name for each in span.crew.all()))
        for span in Span.objects.filter(job=job)
    ]


def test_start_put_down_start_finish_is_all_in_the_log(owner, job, clock):
    tap(owner, job, "start")
    clock.forward(minutes=40)
    tap(owner, job, "stop")
    clock.forward(hours=2)
    tap(owner, job, "start")
    clock.forward(minutes=25)
    tap(owner, job, "finish")
    t = NOW
    assert spans(job) == [
        ("in_hand", t, t + timedelta(minutes=40), ["Ines"]),
        ("waiting", t + timedelta(minutes=40), t + timedelta(minutes=160), []),
        ("in_hand", t + timedelta(minutes=160), t + timedelta(minutes=185), ["Ines"]),
        ("done", t + timedelta(minutes=185), None, ["Ines"]),
    ]
    assert (job.state, job.finished_at) == ("done", t + timedelta(minutes=185))
    view = owner.get(f"/jobs/{job.pk}/").context["view"]
    assert view.spent == "1 h 05"
    assert [line.how_long for line in view.log] == ["", "40 min", "", "25 min", ""]


def test_left_is_what_was_likely_less_what_was_worked(owner, job, clock, cast):
    tap(owner, job, "start")
    clock.forward(minutes=20)
    assert load_work(cast.garage, clock.at).left(job.pk) == 40
    clock.forward(hours=5)
    assert load_work(cast.garage, clock.at).left(job.pk) == 15


def test_left_said_by_hand_runs_down_while_the_work_goes_on(owner, job, clock, cast):
    tap(owner, job, "start")
    clock.forward(minutes=50)
    tap(owner, job, "stop", left="2 h")
    assert load_work(cast.garage, clock.at).left(job.pk) == 120
    tap(owner, job, "start")
    clock.forward(minutes=30)
    assert load_work(cast.garage, clock.at).left(job.pk) == 90
    tap(owner, job, "stop")
    clock.forward(hours=9)
    assert load_work(cast.garage, clock.at).left(job.pk) == 90


def test_people_are_picked_and_two_can_be_on_it(owner, job, cast, now):
    tap(owner, job, "start", crew=[cast.owner.pk, cast.helper.pk])
    assert spans(job)[0][3] == ["Ines", "Tove"]
    assert said(owner) == ["“Weld it” is in hand: Ines and Tove."]


def test_a_stranger_is_no_crew(owner, job, cast, now):
    answer = tap(owner, job, "start", crew=[cast.stranger.pk])
    assert answer.status_code == 422
    assert answer.context["form"].errors["crew"] == ["Choose people of this garage."]
    assert job.state == "open"


def test_whoever_starts_a_job_puts_down_what_he_had_in_hand(owner, job, cast, now):
    other = JobFactory(vehicle=job.vehicle, title="Fit the fan")
    tap(owner, job, "start")
    tap(owner, other, "start")
    job.refresh_from_db()
    assert (job.state, other.state) == ("waiting", "in_hand")
    assert said(owner)[-1] == "“Fit the fan” is in hand: Ines. “Weld it” is put down."


def test_the_other_one_goes_on_when_one_of_two_leaves(owner, job, cast, now):
    other = JobFactory(vehicle=job.vehicle)
    tap(owner, job, "start", crew=[cast.owner.pk, cast.helper.pk])
    tap(owner, other, "start")
    job.refresh_from_db()
    assert job.state == "in_hand"
    assert spans(job)[-1][3] == ["Tove"]


def test_what_was_done_before_the_tap_counts_from_then(owner, job, clock):
    clock.forward(hours=3)
    tap(owner, job, "start", moment=f"{NOW:%Y-%m-%dT%H:%M}")
    tap(owner, job, "finish", moment=f"{NOW + timedelta(hours=1):%Y-%m-%dT%H:%M}")
    assert job.finished_at == NOW + timedelta(hours=1)
    assert spans(job)[0][1:3] == (NOW, NOW + timedelta(hours=1))


@pytest.mark.parametrize("zone", ["Pacific/Auckland", "America/New_York"])
def test_a_year_at_the_edge_of_the_calendar_is_refused(owner, job, cast, now, zone):
    cast.garage.time_zone = zone
    cast.garage.save()
    for year in ("0001-01-01T00:00", "9999-12-31T23:59"):
        answer = tap(owner, job, "start", moment=year)
        assert answer.context["form"].errors["moment"] == ["That year is too far away."]
    assert job.state == "open"


def test_a_time_to_come_and_one_before_the_start_are_refused(owner, job, clock):
    later = f"{NOW + timedelta(hours=1):%Y-%m-%dT%H:%M}"
    answer = tap(owner, job, "start", moment=later)
    assert answer.context["form"].errors["moment"] == ["That time is still to come: choose one that has passed."]
    tap(owner, job, "start")
    clock.forward(hours=1)
    earlier = f"{NOW - timedelta(hours=1):%Y-%m-%dT%H:%M}"
    answer = tap(owner, job, "finish", moment=earlier)
    assert answer.status_code == 422
    assert answer.context["form"].errors["__all__"] == ["That would be before the step it ends: choose a later time."]
    assert job.state == "in_hand"


@pytest.mark.parametrize("state", State.values)
@pytest.mark.parametrize("step", JOB_STATES.steps)
def test_every_step_from_every_state_is_as_the_table_has_it(owner, job, now, state, step):
    Job.objects.filter(pk=job.pk).update(state=state)
    answer = tap(owner, job, step, **({"reason": "put back"} if step in ("hold", "reopen", "drop", "whole") else {}))
    legal = JOB_STATES.allows(step, state)
    assert job.state == (JOB_STATES.after(step) if legal else state)
    assert Span.objects.filter(job=job).count() == (1 if legal else 0)
    if not legal:
        form = answer.context and answer.context.get("form")
        sentence = form.errors["__all__"][0] if form else said(owner)[-1]
        assert sentence.startswith(f"To {JOB_STATES.steps[step].verb} a job it must be ")
        assert sentence.endswith(f"; this one is {State(state).label}.")


@pytest.mark.parametrize("step", ["hold", "reopen", "drop", "whole"])
def test_some_steps_want_a_reason(owner, job, now, step):
    Job.objects.filter(pk=job.pk).update(state={"reopen": "done", "whole": "dropped"}.get(step, "open"))
    before = Job.objects.get(pk=job.pk).state
    answer = tap(owner, job, step, reason="  ")
    assert answer.status_code == 422
    assert answer.context["form"].errors["reason"] == ["Write down why."]
    assert job.state == before


def test_a_hold_shows_its_reason_until_it_is_released(owner, job, now):
    tap(owner, job, "hold", reason="waiting for a gasket")
    assert owner.get(f"/jobs/{job.pk}/").context["view"].card.note == "waiting for a gasket"
    tap(owner, job, "release")
    assert (job.state, job.state_note) == ("waiting", "")


def test_a_job_waits_for_the_one_before(owner, job, now):
    before = JobFactory(vehicle=job.vehicle, title="Jig it")
    LinkFactory(before=before, after=job)
    for step in ("start", "finish"):
        tap(owner, job, step)
        assert job.state == "open"
        assert said(owner)[-1] == "“Jig it” has to be done first: it is open."
    tap(owner, before, "finish")
    tap(owner, job, "start")
    assert job.state == "in_hand"


def test_a_job_waits_for_the_cure_by_the_clock(owner, job, clock):
    before = JobFactory(vehicle=job.vehicle, title="Prime it")
    LinkFactory(before=before, after=job, wait_minutes=120, why="the primer cures")
    tap(owner, before, "finish")
    clock.forward(minutes=119)
    tap(owner, job, "start")
    assert said(owner)[-1] == "The primer cures: ready 19:00."
    clock.forward(minutes=1)
    tap(owner, job, "start")
    assert job.state == "in_hand"


def test_a_dropped_job_passes_the_order_and_the_wait_on(owner, job, clock):
    first = JobFactory(vehicle=job.vehicle, title="Prime it")
    between = JobFactory(vehicle=job.vehicle, title="Paint it")
    LinkFactory(before=first, after=between, wait_minutes=60)
    LinkFactory(before=between, after=job, wait_minutes=600)
    tap(owner, between, "drop", reason="no paint left")
    tap(owner, job, "start")
    assert said(owner)[-1] == "“Prime it” has to be done first: it is open."
    tap(owner, first, "finish")
    clock.forward(minutes=60)
    tap(owner, job, "start")
    assert job.state == "in_hand"


def test_dropping_a_safety_job_is_for_the_owner(owner, helper, job, now):
    Job.objects.filter(pk=job.pk).update(rank="safety")
    answer = tap(helper, job, "drop", reason="no time")
    assert answer.context["form"].errors["__all__"] == ["Only the owner can drop a safety job, with a reason."]
    tap(owner, job, "drop", reason="the part is gone")
    assert (job.state, job.state_note) == ("dropped", "the part is gone")


def test_a_safety_job_ranked_lower_is_still_not_a_helpers_to_drop(helper, job, now):
    Job.objects.filter(pk=job.pk).update(systems=["brakes"], rank="wanted", lowered_because="x")
    assert tap(helper, job, "drop", reason="no time").status_code == 422


def test_who_may(cast, job, now):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        Job.objects.filter(pk=job.pk).update(state="open")
        Span.objects.all().delete()
        assert tap(cast.client(who), job, "start").status_code == status
        assert (job.state == "in_hand") == (status == 303)


def test_a_double_tap_starts_once(owner, job, now):
    data = {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    for _ in range(2):
        assert owner.post(f"/jobs/{job.pk}/start/", data).status_code == 303
    assert Span.objects.filter(job=job).count() == 1
    assert said(owner) == ["“Weld it” is in hand: Ines."]


def test_the_answer_leads_back_to_where_the_tap_was(owner, job, now):
    assert tap(owner, job, "start", next="/")["Location"] == "/"
    assert tap(owner, job, "stop", next="https://elsewhere.example/")["Location"] == (f"/jobs/{job.pk}/")


@pytest.mark.django_db(transaction=True)
def test_of_two_who_start_at_once_one_wins_and_one_is_told(cast):
    """Real threads; on a locked table in memory a try is repeated, as a file's timeout would."""
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    people = [cast.owner, cast.helper, *(MembershipFactory(garage=cast.garage) for _ in range(2))]
    line, outcomes = threading.Barrier(len(people)), []

    def race(member):
        row = Job.objects.select_related("vehicle__garage").get(pk=job.pk)
        line.wait()
        while True:
            try:
                steps.start(row, by=member, at=NOW)
                outcomes.append("won")
            except Refused as refused:
                outcomes.append(str(refused))
            except OperationalError as error:
                if "locked" in str(error):
                    continue
                outcomes.append(repr(error))
            break
        connection.close()

    threads = [threading.Thread(target=race, args=[member]) for member in people]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == [
        *["To start a job it must be open or put down; this one is in hand."] * 3,
        "won",
    ]
    assert Span.objects.filter(job=job).count() == 1
