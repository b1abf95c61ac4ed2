"""A car that is stripped stays so until the work that puts it back is done, whatever happens to its jobs."""

from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction

from builds.plan.facts.problem import build_problem
from builds.steps.actions import jobs, links, steps
from builds.verdict.engine.severity import Severity
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.link import Link, StationHold
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import evenings, planned
from tests.factories import NOW, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)
WHY = "it stands on dollies in the yard"


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron", state="driveable")


@pytest.fixture
def bay(cast):
    return StationFactory(garage=cast.garage, name="Bay", stands=True)


def add(car, cast, title, *kinds, **more):
    more.setdefault("rank", "needed")
    more.setdefault("lowered_because", "only its order counts here")
    return jobs.add(car, by=cast.owner, at=NOW, title=title, work=(30, 60, 90), kinds=list(kinds), **more)


@pytest.fixture
def strip(car, cast, bay):
    off, on = add(car, cast, "Arm off", "joint_opened"), add(car, cast, "Arm on", "joint_opened")
    links.add(off, on)
    links.hold_station(bay, off, on)
    return off, on


def begin(job, cast):
    steps.start(job, by=cast.helper, at=NOW - 2 * HOUR)
    steps.finish(job, by=cast.helper, at=NOW - HOUR)


def stripped(car):
    return [reason.sentence for reason in verdict_of(car, NOW).reasons if reason.severity == Severity.STRIPPED]


def edited(job, **more):
    fields = {"title": job.title, "vehicle": job.vehicle_id, "systems": job.systems, "kinds": job.kinds}
    figures = {"likely": "60 min", "low": "30 min", "high": "90 min", "hands": "1", "weight": "1"}
    return {**fields, **figures, "rank": job.rank, "lowered_because": job.lowered_because, "splits": "on", **more}


@pytest.mark.parametrize("end", [0, 1])
@pytest.mark.parametrize("begun", [False, True])
def test_neither_end_of_a_strip_is_moved_to_another_car(cast, car, strip, owner, end, begun):
    other, job = VehicleFactory(garage=cast.garage, name="Badger"), strip[end]
    if begun:
        begin(strip[0], cast)
        job.refresh_from_db()
    answer = owner.press(f"/jobs/{job.pk}/edit/", edited(job, vehicle=other.pk))
    assert answer.status_code == 422
    assert f"“{job}” stays on Heron" in answer.content.decode()
    for path in ("/", "/cars/", f"/cars/{car.pk}/", f"/cars/{other.pk}/", "/plan/"):
        assert owner.get(path).status_code == 200, path


@pytest.mark.parametrize("end", [0, 1])
def test_what_strips_a_car_or_puts_it_back_is_not_dropped_while_it_is_stripped(cast, car, strip, end):
    steps.start(strip[0], by=cast.helper, at=NOW - HOUR)
    job = strip[end]
    job.refresh_from_db()
    with pytest.raises(Refused, match="is stripped in Bay until “Arm on” is done"):
        steps.drop(job, by=cast.owner, at=NOW, reason="no time")


def test_a_strip_that_has_not_begun_is_dropped_like_any_work(cast, car, strip):
    steps.drop(strip[1], by=cast.owner, at=NOW, reason="no time")
    assert stripped(car) == []


def test_the_links_that_lead_through_a_strip_stay(strip):
    link = Link.objects.get(before=strip[0], after=strip[1])
    with pytest.raises(Refused, match="without this link “Arm on” does not come after it"):
        links.remove(link)
    assert Link.objects.filter(pk=link.pk).exists()


def test_only_the_owner_frees_the_place_of_a_stripped_car(cast, car, strip, helper):
    begin(strip[0], cast)
    kept = StationHold.objects.get()
    helper.press(f"/kept/{kept.pk}/delete/")
    assert helper.press(f"/kept/{kept.pk}/free/", {"because": WHY}).status_code == 403
    with pytest.raises(Refused, match="only the owner frees Bay"):
        links.free_station(kept, by=cast.helper, at=NOW, because=WHY)
    assert StationHold.objects.keeping().get() == kept


@pytest.mark.parametrize(
    ("because", "status"), [("short", 422), ("", 422), ("sorted", 303), ("a" * 200, 303), ("a" * 201, 422)]
)
def test_the_owner_says_why_the_place_is_free(cast, car, strip, owner, because, status):
    begin(strip[0], cast)
    kept = StationHold.objects.get()
    assert owner.get(f"/kept/{kept.pk}/free/").status_code == 200
    assert owner.press(f"/kept/{kept.pk}/free/", {"because": because}).status_code == status
    kept.refresh_from_db()
    assert (kept.freed_because, kept.freed_by) == ((because, cast.owner) if status == 303 else ("", None))


def test_a_place_is_not_freed_without_a_reason_in_the_database(cast, strip):
    with pytest.raises(IntegrityError), transaction.atomic():
        StationHold.objects.update(freed_at=NOW, freed_by=cast.owner)


def test_a_car_whose_place_is_freed_is_no_less_stripped(cast, car, strip, owner):
    off, on = strip
    begin(off, cast)
    links.free_station(StationHold.objects.get(), by=cast.owner, at=NOW, because=WHY)
    assert stripped(car) == [f"Stripped until “Arm on” is done. Bay was freed: {WHY}."]
    assert verdict_of(car, NOW).do_not_drive
    assert f"Freed by {cast.owner}: {WHY}" in owner.get(f"/jobs/{on.pk}/").content.decode()
    assert build_problem(cast.garage, NOW)[0].holds == ()
    steps.drop(on, by=cast.owner, at=NOW, reason="no glass yet")
    assert stripped(car) == [f"Stripped until “Arm on” is done, which was dropped. Bay was freed: {WHY}."]


def test_it_is_whole_again_once_the_work_that_puts_it_back_is_done(cast, car, strip):
    off, on = strip
    begin(off, cast)
    links.free_station(StationHold.objects.get(), by=cast.owner, at=NOW, because=WHY)
    steps.start(on, by=cast.helper, at=NOW)
    steps.finish(on, by=cast.helper, at=NOW)
    assert stripped(car) == []


def test_nobody_measures_a_stripped_car_whose_place_is_freed(cast, car, strip):
    off, on = strip
    begin(off, cast)
    links.free_station(StationHold.objects.get(), by=cast.owner, at=NOW, because=WHY)
    weigh = add(car, cast, "Weigh it", measures=["corner_weights"])
    assert Link.objects.standing().filter(before=on, after=weigh).exists()


def test_a_strip_that_goes_on_while_its_first_job_was_dropped_keeps_its_place_in_the_plan(cast, car, strip):
    """As long as hands have been on it."""
    steps.start(strip[0], by=cast.helper, at=NOW - HOUR)
    type(strip[0]).objects.filter(pk=strip[0].pk).update(state="dropped")
    assert len(build_problem(cast.garage, NOW)[0].facts) == 1


def test_with_an_arm_off_nobody_weighs_it_elsewhere(cast, car, strip):
    off, on = strip
    floor = StationFactory(garage=cast.garage, name="Floor", stands=True)
    weigh = add(car, cast, "Weigh it", measures=["corner_weights"], stations={floor: 1})
    links.add(weigh, on)
    begin(off, cast)
    plan = planned(cast.garage)
    assert [plan.jobs[left].title for left in plan.unplaced] == ["Arm on", "Weigh it"]
    assert "while its car stands stripped in Bay" in next(
        left.why for left in plan.unplaced.values() if plan.jobs[left.id].title == "Weigh it"
    )


def test_two_stripped_cars_in_a_bay_for_one_are_left_there_and_the_plan_says_so(cast, car, bay, strip, owner):
    """Their bay was made for two until somebody said otherwise."""
    bay.capacity = 2
    bay.save()
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    box = {"stations": {bay: 1}, "systems": ["gearbox"]}
    off, on = add(moth, cast, "Gearbox out", **box), add(moth, cast, "Gearbox in", **box)
    links.add(off, on)
    links.hold_station(bay, off, on)
    add(VehicleFactory(garage=cast.garage, name="Wren"), cast, "Wash it", stations={bay: 1})
    begin(strip[0], cast)
    begin(off, cast)
    bay.capacity = 1
    bay.save()
    plan = planned(cast.garage)
    assert len(plan.problem.facts) == 2
    assert {plan.jobs[placed].title for placed in plan.placed} >= {"Arm on", "Gearbox in"}
    said = "Heron and Moth stand stripped in Bay, which has room for 1: the plan leaves them there, and no other car"
    assert said in owner.get("/plan/").content.decode()
