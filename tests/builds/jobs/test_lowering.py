"""Lowering a safety job is the owner's alone, wants a reason that says something, and leaves a mark."""

import pytest

from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions.refused import Refused
from garage.engine.reasons import says_why
from tests.factories import NOW, JobFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
WHY = "Only its paint."


@pytest.fixture
def job(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    return JobFactory(vehicle=car, title="Hose", systems=["brakes"], rank="safety", made_by=cast.owner)


def change(job, by, **more):
    told = {
        "work": (30, 60, 120), "systems": job.systems, "rank": job.rank, "lowered_because": job.lowered_because,
        "stations": {}, "left_minutes": None,
    }  # fmt: skip
    return jobs.change(job, by=by, at=NOW, **{**told, **more})


def refused(job, by, **more):
    with pytest.raises(Refused) as error:
        change(job, by, **more)
    job.refresh_from_db()
    return str(error.value), error.value.field


@pytest.mark.parametrize(("reason", "says"), [("", False), (".", False), ("......", False), ("1234567", False),
                                              ("later", False), ("a cover", True), ("Ölwanne", True)])  # fmt: skip
def test_a_reason_is_more_than_a_dot(reason, says):
    assert says_why(reason) is says


def test_a_helper_lowers_neither_its_rank_nor_what_it_touches(cast, job):
    assert refused(job, cast.helper, rank="wanted", lowered_because=WHY) == (
        "“Hose” is a safety job: only the owner ranks it lower.",
        "rank",
    )
    assert refused(job, cast.helper, systems=["body"], lowered_because=WHY) == (
        "“Hose” is a safety job: only the owner takes this off: Brakes.",
        "systems",
    )
    assert refused(job, cast.helper, systems=[], rank="safety")[1] == "systems"
    assert (job.rank, job.systems, job.was_safety) == ("safety", ["brakes"], False)


def test_a_helper_does_not_write_down_a_new_one_lower_but_a_recipe_may(cast, job):
    fields = {"title": "Cap", "work": (1, 2, 3), "systems": ["brakes"], "rank": "wanted", "lowered_because": WHY}
    with pytest.raises(Refused, match="Only the owner ranks a safety job lower"):
        jobs.add(job.vehicle, by=cast.helper, at=NOW, **fields)
    assert jobs.add(job.vehicle, by=cast.helper, at=NOW, recipe="caps", **fields).was_safety
    assert jobs.add(job.vehicle, by=cast.owner, at=NOW, **fields).was_safety


@pytest.mark.parametrize("reason", ["", ".", "     .", "x"])
def test_the_owner_lowers_it_with_words(cast, job, reason):
    assert (
        "write down why it may rank below safety" in refused(job, cast.owner, rank="needed", lowered_because=reason)[0]
    )
    change(job, cast.owner, rank="needed", lowered_because=WHY)
    assert (job.rank, job.lowered_because, job.was_safety) == ("needed", WHY, True)


@pytest.fixture
def lowered(cast, job):
    """By its systems: nothing but the mark says any more that it was a safety job."""
    return change(job, cast.owner, systems=["body"], rank="needed", lowered_because=WHY)


def test_the_mark_keeps_a_helper_from_dropping_it_and_from_the_reason(cast, lowered):
    with pytest.raises(Refused, match="Only the owner can drop a safety job"):
        steps.drop(lowered, by=cast.helper, at=NOW, reason="no time")
    assert refused(lowered, cast.helper, lowered_because="Whatever else.")[1] == "lowered_because"
    change(lowered, cast.helper, title="Hose, left")
    assert (lowered.title, lowered.was_safety, lowered.lowered_because) == ("Hose, left", True, WHY)
    assert "write down why" in refused(lowered, cast.owner, lowered_because="")[0]


def test_the_mark_still_wants_a_look_and_the_sheet_says_why(cast, lowered):
    car = lowered.vehicle
    assert "“Hose” ranks needed, not safety: Only its paint." in verdict_of(car, NOW).lowered
    steps.finish(lowered, by=cast.helper, at=NOW)
    assert "“Hose” is done, but nobody has signed it." in [reason.sentence for reason in verdict_of(car, NOW).reasons]
    with pytest.raises(Refused, match="Tove worked on this"):
        steps.sign(lowered, by=cast.helper, at=NOW)


def test_raised_again_by_anybody_it_is_a_safety_job_as_before(cast, lowered):
    change(lowered, cast.helper, rank="safety", lowered_because="")
    assert (lowered.rank, lowered.was_safety, lowered.lowered_because) == ("safety", False, "")
    assert refused(lowered, cast.helper, rank="needed", lowered_because=WHY)[1] == "rank"


def test_what_was_never_for_safety_changes_as_ever(cast):
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage), systems=["cooling"])
    change(job, cast.helper, rank="wanted", systems=["body"])
    assert (job.rank, job.was_safety) == ("wanted", False)
