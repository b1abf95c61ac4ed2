"""How a car stands follows from its work: off its wheels, on them again as it stood, driven."""

from datetime import timedelta

import pytest

from builds.steps.actions import hold_points, jobs, links, steps
from garage.models import Vehicle
from tests.factories import NOW, HoldPointFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)


@pytest.fixture
def bay(cast):
    return StationFactory(garage=cast.garage, name="Bay", stands=True, capacity=2)


@pytest.fixture(params=["driveable", "rolling"])
def car(cast, request):
    return VehicleFactory(garage=cast.garage, name="Heron", state=request.param)


def add(car, cast, title, *kinds):
    return jobs.add(
        car, by=cast.owner, at=NOW, title=title, work=(30, 60, 90), kinds=list(kinds),
        rank="needed", lowered_because="only its standing counts here",
    )  # fmt: skip


def strip(car, cast, bay, *, until="wheels_on"):
    off, on = add(car, cast, "Wheels off", "wheel_off"), add(car, cast, "Wheels on", until)
    links.add(off, on)
    links.hold_station(bay, off, on)
    return off, on


def stands(car):
    return Vehicle.objects.values_list("state", flat=True).get(pk=car.pk)


def test_the_strip_takes_it_off_its_wheels_and_the_wheels_bring_it_back_as_it_stood(cast, car, bay):
    stood = car.state
    off, on = strip(car, cast, bay)
    steps.start(off, by=cast.helper, at=NOW)
    assert stands(car) == "stands"
    steps.finish(off, by=cast.helper, at=NOW)
    steps.start(on, by=cast.helper, at=NOW)
    assert stands(car) == "stands"
    steps.finish(on, by=cast.helper, at=NOW)
    assert stands(car) == stood


def test_done_already_counts_as_well(cast, car, bay):
    off, _ = strip(car, cast, bay)
    steps.finish(off, by=cast.helper, at=NOW)
    assert stands(car) == "stands"


def test_wheels_off_and_on_at_the_end_of_a_strip_are_the_wheels_going_on(cast, car, bay):
    off, on = strip(car, cast, bay, until="wheel_off")
    for job in (off, on):
        steps.finish(job, by=cast.helper, at=NOW)
    assert stands(car) != "stands"


def test_a_strip_that_keeps_its_wheels_leaves_it_as_it_stands(cast, car, bay):
    off, on = strip(car, cast, bay, until="glass_bonding")
    stood = car.state
    for job in (off, on):
        steps.finish(job, by=cast.helper, at=NOW)
        assert stands(car) == stood


def test_with_two_strips_it_stays_on_stands_until_both_are_over(cast, car, bay):
    (off, on), (other_off, other_on) = strip(car, cast, bay), strip(car, cast, bay)
    for job in (off, other_off, on):
        steps.finish(job, by=cast.helper, at=NOW)
    assert stands(car) == "stands"
    steps.finish(other_on, by=cast.helper, at=NOW)
    assert stands(car) != "stands"


def test_opened_again_the_wheels_are_off_again(cast, car, bay):
    off, on = strip(car, cast, bay)
    for job in (off, on):
        steps.finish(job, by=cast.helper, at=NOW)
    steps.reopen(on, by=cast.owner, at=NOW, reason="stud pulled")
    assert stands(car) == "stands"


def test_back_to_work_from_its_hold_point_they_are_off_as_well(cast, car, bay):
    off, on = strip(car, cast, bay)
    stood, point = car.state, HoldPointFactory(job=on)
    for job in (off, on):
        steps.finish(job, by=cast.helper, at=NOW)
    assert stands(car) == stood
    steps.release(on, by=cast.owner, at=NOW)
    assert stands(car) == "stands"
    steps.finish(on, by=cast.helper, at=NOW)
    hold_points.sign(point, by=cast.owner, at=NOW, seen="studs seen")
    assert stands(car) == stood


def test_one_set_on_stands_by_hand_is_rolling_once_its_wheels_are_on(cast, car):
    Vehicle.objects.filter(pk=car.pk).update(state="stands")
    steps.finish(add(car, cast, "Wheels on", "wheels_on"), by=cast.helper, at=NOW)
    assert stands(car) == "rolling"


def test_what_was_driven_can_be_driven(cast, car, bay):
    steps.finish(add(car, cast, "Bed in", "driven"), by=cast.helper, at=NOW)
    assert stands(car) == "driveable"


def test_a_drive_that_is_written_down_late_puts_no_stripped_car_on_its_wheels(cast, car, bay):
    """Left in hand since before the car had to itself whatever runs its engine."""
    drive = add(car, cast, "Written late", "driven")
    off, _ = strip(car, cast, bay)
    steps.start(off, by=cast.helper, at=NOW - HOUR)
    drive.state = "in_hand"
    drive.save()
    steps.finish(drive, by=cast.owner, at=NOW)
    assert stands(car) == "stands"


def test_what_a_hand_says_stands(helper, cast, car, bay):
    off, _ = strip(car, cast, bay)
    steps.start(off, by=cast.helper, at=NOW - HOUR)
    helper.press(f"/cars/{car.pk}/state/", {"state": "rolling", "stood": "stands"})
    steps.stop(off, by=cast.helper, at=NOW)
    assert stands(car) == "rolling"
