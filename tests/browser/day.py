"""An event's day for phones in a browser: a car with one list of each sort, and links by which its crew signs in."""

from datetime import timedelta

from builds.joints.models import Joint
from builds.packing.models import PackItem, PackList
from builds.scrutineering.models.check import CheckItem, CheckList
from garage import clock
from garage.actions.sign_in import digest
from garage.models import SignInLink
from tests.factories import EntryFactory, EventFactory, VehicleFactory

LINKS = 60  # of each person; far more than a day takes


def made_entry(owner, name):
    event = EventFactory(garage=owner.garage, name="Kiln Lane", gates_at=clock.now() + timedelta(days=1))
    entry = EntryFactory(event=event, vehicle=VehicleFactory(garage=owner.garage, name=name))
    by = {"made_by": owner, "made_at": clock.now()}
    checks, packs = CheckList.objects.create(entry=entry, **by), PackList.objects.create(event=event, runs=1, **by)
    for place in range(3):
        CheckItem.objects.create(checklist=checks, place=place, section="Brakes", text=f"Line {place} is dry")
        PackItem.objects.create(packlist=packs, place=place, section="tools", what=f"Thing {place}")
    Joint.objects.create(vehicle=entry.vehicle, name="Wheel nuts", systems=["wheels"])
    return entry


def ways_in(crew):
    """Sign-in links of each, made beforehand: while the phones are at it nothing else writes."""
    ways = {}
    for who in crew:
        tokens = [f"{who.name.lower()}-{number:06d}-{'x' * 8}" for number in range(LINKS)]
        until = clock.now() + timedelta(hours=20)
        SignInLink.objects.bulk_create(
            SignInLink(person=who.person, digest=digest(token), expires_at=until) for token in tokens
        )
        ways[who.name] = iter([f"/enter/{token}/" for token in tokens])
    return ways
