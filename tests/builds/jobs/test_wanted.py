"""Work is put off as wanted only once something is said of it: what it touches, does or takes."""

import pytest

from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.engine.ranks import NOT_WANTED, refuse_wanted
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.verdict.moth_kit import fit_moth
from tests.factories import NOW, VehicleFactory

WORK = (30, 60, 90)
FORM = {"likely": "1:00", "hands": "1", "weight": "1"}


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage)


@pytest.mark.parametrize(("rank", "said", "refused"), [
    ("wanted", ((), [], ""), True), ("needed", ((), [], ""), False), ("safety", (), False),
    ("wanted", (["body"], []), False), ("wanted", ((), ["paint"]), False), ("wanted", ((), (), ("camber",)), False),
])  # fmt: skip
def test_what_may_be_wanted(rank, said, refused):
    assert refuse_wanted(rank, *said) == (NOT_WANTED if refused else None)


def test_it_is_refused_at_its_field_by_hand_and_in_a_change(cast, car, helper):
    add = f"/cars/{car.pk}/jobs/add/"
    sent = {**FORM, "title": "Grumble behind", "vehicle": car.pk, "rank": "wanted"}
    answer = helper.press(add, sent)
    assert answer.status_code == 422 and answer.context["form"].errors["rank"] == [NOT_WANTED]
    with pytest.raises(Refused, match="Nobody has said what it touches") as refused:
        jobs.add(car, by=cast.owner, at=NOW, title="Grumble behind", work=WORK, rank="wanted")
    assert refused.value.field == "rank"
    assert helper.press(add, {**sent, "systems": ["body"]}).status_code == 303
    assert helper.press(add, {**sent, "title": "Polish the wing"}).status_code == 303
    assert helper.press(add, {**sent, "title": "Cotter missing"}).status_code == 422
    job = jobs.add(car, by=cast.owner, at=NOW, title="Grumble", work=WORK)
    edit = f"/jobs/{job.pk}/edit/"
    form = helper.get(edit).context["form"]
    answer = helper.press(edit, {**form.standing, "rank": "wanted"})
    assert answer.context["form"].errors["rank"] == [NOT_WANTED]
    told = {"systems": [], "rank": "wanted", "lowered_because": "", "stations": {}, "left_minutes": None}
    with pytest.raises(Refused, match="Nobody has said what it touches"):
        jobs.change(job, by=cast.owner, at=NOW, work=WORK, **told)
    assert Job.objects.get(pk=job.pk).rank == "needed"


def test_a_pasted_line_is_needed_then_and_the_preview_says_so(car, helper):
    sent = {"lines": "Grumble behind; wanted"}
    page = helper.press(f"/cars/{car.pk}/jobs/paste/", sent).content.decode()
    assert "Wanted is not kept: nobody has said what it touches, so that it is needed." in page
    helper.press(f"/cars/{car.pk}/jobs/paste/", {**sent, "step": "save"})
    assert Job.objects.get().rank == "needed"


def test_words_that_nobody_reads_are_finished_as_opening_nothing_only_with_why_and_the_verdict_names_it(cast, now):
    car = fit_moth(cast).vehicle
    job = jobs.add(car, by=cast.helper, at=NOW, title="Bremsen luften", work=WORK)
    with pytest.raises(Refused, match="why nothing of it was opened"):
        steps.finish(job, by=cast.helper, at=NOW, kinds=[])
    steps.finish(job, by=cast.helper, at=NOW, kinds=[], because="somebody else did it")
    found = verdict_of(car, NOW)
    assert found.sentence == "Fit to run; 1 job was finished as having opened nothing"
    assert found.on_word[0].startswith("“Bremsen luften” is said to have opened nothing: somebody else did it.")
