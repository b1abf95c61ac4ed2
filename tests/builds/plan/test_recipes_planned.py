"""What recipes put on a car can be planned: a car in one place, measured in the order of work."""

import pytest

from builds.plan.actions.follow import make_plan
from builds.plan.engine.ids import pk_of
from builds.plan.facts.stored import read
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.order_of_work import STAGE
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.work.facts.waits import following
from builds.work.models.job import Job, JobStation
from builds.work.models.link import StationHold
from garage.actions import garages
from garage.models import Membership, Skill, Station
from tests.builds.plan.plan_kit import evenings
from tests.builds.recipes.test_recipes_meet import ELEVEN
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
RECIPES = {recipe.key: recipe for recipe in load_shipped()}


@pytest.fixture
def car(cast):
    """In a furnished garage of two who can do everything, on every evening and a long weekend."""
    garages.furnish(cast.garage)
    for member in Membership.objects.in_garage(cast.garage):
        member.skills.set(Skill.objects.in_garage(cast.garage))
        evenings(member, range(5), 17, 23)
        evenings(member, (5, 6), 8, 23)
    return VehicleFactory(garage=cast.garage, name="Heron")


def put(car, by, *keys):
    recipes.put_several([RECIPES[key] for key in keys], car, by=by, at=NOW)
    return read(make_plan(car.garage, at=NOW), car.garage)


def stands_in(plan, car):
    """Slots in which the car stands somewhere: (from, to, station), its holds and its jobs."""
    standing = set(Station.objects.in_garage(car.garage).filter(stands=True).values_list("pk", flat=True))
    placed = {pk_of(row.id): row for row in plan.placed.values()}
    for use in JobStation.objects.filter(job__in=placed, station__in=standing):
        yield placed[use.job_id].start, placed[use.job_id].end, use.station_id
    for hold in StationHold.objects.filter(first__vehicle=car):
        yield placed[hold.first_id].start, placed[hold.last_id].end, hold.station_id


def side_by_side(plan, car):
    """Titles of two jobs of the car at the same time, the first of which runs its engine."""
    rows = Job.objects.on(car).in_bulk()
    placed = [(rows[pk_of(row.id)], row) for row in plan.placed.values() if row.start < row.end]
    for running, at in placed:
        if {"engine_run", "driven"} & set(running.kinds):
            for job, row in placed:
                if job != running and job.hands and row.start < at.end and at.start < row.end:
                    yield running.title, job.title


@pytest.mark.parametrize("key", RECIPES)
def test_every_recipe_finds_a_place_whole(cast, car, key):
    plan = put(car, cast.owner, key)
    assert [(row.id, row.why) for row in plan.answer.unplaced] == []
    assert list(side_by_side(plan, car)) == []


@pytest.mark.parametrize("count", range(2, len(ELEVEN) + 1))
def test_nobody_has_his_hands_in_a_car_whose_engine_runs(cast, car, count):
    plan = put(car, cast.owner, *ELEVEN[-count:])
    assert any({"engine_run", "driven"} & set(job.kinds) for job in Job.objects.on(car))
    assert list(side_by_side(plan, car)) == []


def test_eleven_at_once_stand_in_one_place_and_are_measured_after_the_work(cast, car):
    plan = put(car, cast.owner, *ELEVEN)
    assert [(row.id, row.why) for row in plan.answer.unplaced] == []
    spans = list(stands_in(plan, car))
    for start, end, station in spans:
        assert not any(s < end and start < e and other != station for s, e, other in spans)
    placed = {pk_of(row.id): row for row in plan.placed.values()}
    jobs = {job: placed[job.pk] for job in Job.objects.on(car) if job.pk in placed}
    for taken, at in jobs.items():
        if not STAGE.keys() & set(taken.measures):
            continue
        later = following(taken)
        for worked, when in jobs.items():
            spoils = voided_by(worked.kinds) & set(taken.measures) - set(worked.measures)
            if spoils and not STAGE.keys() & set(worked.measures) and worked not in later:
                assert when.end <= at.start, f"“{worked}” comes after “{taken}”"
