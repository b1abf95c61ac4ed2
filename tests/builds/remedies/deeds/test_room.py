"""Room for one more on a station, or a better order at the same one."""

import pytest

from builds.remedies.deeds.room import RoomDeed
from builds.work.models.link import StationHold
from garage.actions.refused import Refused
from garage.models import Station
from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.builds.remedies.remedy_kit import DAY, address, apply, card, makes_it, said_on
from tests.factories import NOW, JobStationFactory, StationFactory, VehicleFactory


@pytest.fixture
def one_bay(cast, car):
    """Two cars, two people, one evening, and one bay that both cars need for all of it."""
    evenings(cast.helper, days=[1])
    cast.helper.works = True
    cast.helper.save()
    bay = StationFactory(garage=cast.garage, name="Bay")
    entries = []
    for vehicle in (car, VehicleFactory(garage=cast.garage, name="Badger")):
        work = job(vehicle, cast, f"Fit {vehicle}", likely_minutes=240, high_minutes=240)
        JobStationFactory(job=work, station=bay)
        entries.append(enter(vehicle, NOW + 2 * DAY))
    planned(cast.garage)
    return sorted(entries, key=makes_it)


def test_room_for_one_more(owner, one_bay):
    late, other = one_bay
    said = said_on(owner, address(late, "?whole"))
    assert "Bay has room for 2 at once, not 1" in said
    assert "To undo: give Bay its room back among the stations." in said
    apply(owner, late, card(owner, late, "room"))
    assert Station.objects.get().capacity == 2
    assert makes_it(late) and makes_it(other)


def test_room_beside_a_car_that_only_stands_there_stripped(owner, cast, car):
    """Badger waits in the bay for a part that comes after Heron has left; no work of its own is done there."""
    evenings(cast.owner)
    bay = StationFactory(garage=cast.garage, name="Bay", stands=True)
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    strip = job(badger, cast, "Strip", state="done", finished_at=NOW)
    refit = job(badger, cast, "Refit", earliest_at=NOW + 5 * DAY, likely_minutes=60)
    StationHold.objects.create(station=bay, first=strip, last=refit)
    JobStationFactory(job=job(car, cast, "Fit the fan", likely_minutes=60), station=bay)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert not makes_it(entry)
    apply(owner, entry, card(owner, entry, "room"))
    assert makes_it(entry)


def test_a_better_order_says_whom_it_costs(owner, one_bay):
    late, other = one_bay
    late.weight = 5
    late.save()
    said = said_on(owner, address(late, "?whole"))
    assert "The same work in a better order" in said
    assert f"{other.vehicle} then misses Saltmarsh Hill Climb." in said
    apply(owner, late, "again")
    assert (makes_it(late), makes_it(other)) == (True, False)


def test_there_is_no_room_for_ever_more(cast, late, do):
    hall = StationFactory(garage=cast.garage, name="Hall", capacity=50)
    with pytest.raises(Refused, match="Hall has room for 50 already"):
        do(RoomDeed(hall.pk))
