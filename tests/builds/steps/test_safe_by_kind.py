"""A job is for safety by what is done in it, whatever was ticked under what it touches."""

import pytest

from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.kinds_touch import TOUCHED_BY, touched
from builds.steps.actions import jobs, steps
from builds.steps.engine.looks import JOINTS
from builds.steps.engine.opened import HAPPENED
from builds.steps.facts.looks import for_safety
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.engine.systems import SAFETY_SYSTEMS
from tests.factories import NOW, JobFactory, VehicleFactory

WORK = (30, 60, 90)


def test_every_kind_in_the_table_is_known_and_brings_safety_systems():
    assert TOUCHED_BY.keys() <= KINDS.keys() - HAPPENED
    assert {system for systems in TOUCHED_BY.values() for system in systems} <= SAFETY_SYSTEMS


def test_what_leaves_a_joint_a_line_or_a_belt_to_look_at_is_in_the_table():
    assert TOUCHED_BY.keys() >= JOINTS


@pytest.mark.parametrize(
    ("systems", "kinds", "touches"),
    [
        ([], ["hydraulics_opened"], ("brakes",)),
        (["brakes"], ["hydraulics_opened", "wheel_off"], ("brakes", "wheels")),
        (["suspension"], ["joint_opened"], ("suspension",)),
        ([], ["joint_opened"], ("steering", "suspension")),
        (["body"], ["paint", "mass_moved"], ("body",)),
    ],
)
def test_a_kind_brings_its_systems_where_none_of_them_is_said(systems, kinds, touches):
    assert touched(systems, kinds) == touches


def test_an_unknown_kind_is_refused():
    with pytest.raises(ValueError, match="'nonsense' is not a known kind of work"):
        touched([], ["nonsense"])


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron", state="driveable")


@pytest.mark.parametrize("kind", sorted(TOUCHED_BY))
def test_written_down_with_the_kind_alone_it_ranks_safety(cast, car, kind):
    told = {"by": cast.owner, "at": NOW, "title": "Work", "work": WORK, "kinds": [kind]}
    job = jobs.add(car, **told)
    assert (job.rank, for_safety(job)) == ("safety", True)
    with pytest.raises(Refused, match="write down why it may rank below safety"):
        jobs.add(car, **told, rank="wanted")
    assert jobs.add(car, **told, rank="wanted", lowered_because="it is a spare").rank == "wanted"


def test_polishing_is_no_safety_job(cast, car):
    job = jobs.add(car, by=cast.owner, at=NOW, title="Polish", work=WORK, kinds=["paint"], rank="wanted")
    assert (job.rank, for_safety(job)) == ("wanted", False)


def test_the_form_asks_a_helper_for_the_reason_and_the_action_refuses_it(cast, car, helper):
    data = {"title": "New front pads", "vehicle": car.pk, "likely": "1", "hands": "1", "weight": "1"}
    asked = helper.press(f"/cars/{car.pk}/jobs/add/", {**data, "rank": "wanted", "kinds": ["friction_parts"]})
    assert "This job touches brakes: write down why it may rank below safety." in asked.content.decode()
    why = {"rank": "wanted", "kinds": ["friction_parts"], "lowered_because": "no time for it"}
    refused = helper.press(f"/cars/{car.pk}/jobs/add/", {**data, **why})
    assert "Only the owner ranks a safety job lower." in refused.content.decode()
    assert not car.jobs.exists()
    helper.press(f"/cars/{car.pk}/jobs/add/", {**data, "kinds": ["friction_parts"]})
    assert car.jobs.get().rank == "safety"


def test_the_form_says_so(car, helper):
    page = helper.get(f"/cars/{car.pk}/jobs/add/").content.decode()
    assert "makes it a safety job, whatever is ticked above" in page


def test_what_the_finish_tells_makes_it_one(cast, car):
    job = JobFactory(vehicle=car, title="Look under the tank", rank="needed", made_by=cast.owner)
    steps.finish(job, by=cast.helper, at=NOW, kinds=["fuel_line"])
    assert (job.rank, for_safety(job)) == ("safety", True)
    assert verdict_of(car, NOW).do_not_drive
    with pytest.raises(Refused, match="worked on this"):
        steps.sign(job, by=cast.helper, at=NOW)
    steps.sign(job, by=cast.owner, at=NOW)


def test_only_the_owner_drops_it_or_takes_the_kind_off_what_was_begun(cast, car):
    Job.objects.bulk_create(
        [JobFactory.build(vehicle=car, title="Hose", rank="needed", kinds=["hydraulics_opened"], made_by=cast.owner)]
    )
    job = car.jobs.get()
    with pytest.raises(Refused, match="Only the owner can drop a safety job"):
        steps.drop(job, by=cast.helper, at=NOW, reason="no time")
