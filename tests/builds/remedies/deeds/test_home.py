"""Another car stays at home."""

from garage.models import Entry
from tests.builds.plan.plan_kit import enter, job, planned
from tests.builds.remedies.remedy_kit import DAY, address, apply, card, makes_it, said_on
from tests.factories import NOW, VehicleFactory


def test_the_other_car_at_home(owner, cast, car):
    other = VehicleFactory(garage=cast.garage, name="Badger")
    entries = []
    for vehicle in (car, other):
        job(vehicle, cast, f"Fit {vehicle}", likely_minutes=200, high_minutes=240)
        entries.append(enter(vehicle, NOW + 2 * DAY))
    planned(cast.garage)
    entry, goes = sorted(entries, key=makes_it)
    said = said_on(owner, address(entry, "?whole"))
    assert f"{goes.vehicle} does not go to Saltmarsh Hill Climb" in said
    assert f"{goes.vehicle} then misses" not in said
    apply(owner, entry, card(owner, entry, "home"))
    assert makes_it(entry)
    assert Entry.objects.get() == entry
