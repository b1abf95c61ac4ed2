"""What tests of nights share: an event that is on, with a car that is there and a job found on it."""

from datetime import timedelta

from builds.steps.actions import nights
from garage.models import Night
from tests.builds.plan.plan_kit import evenings, job
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

HOUR = timedelta(hours=1)


def make_fair(cast):
    """It began at 8:00 today and ends tomorrow at 16:00; Ines is there with Heron. Work from 18:00 to 22:00."""

    class Fair:
        event = EventFactory(
            garage=cast.garage, name="Saltmarsh", gates_at=NOW - 9 * HOUR, ends_at=NOW + 23 * HOUR, travel_minutes=60
        )
        ines = cast.owner
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        entry = EntryFactory(event=event, vehicle=heron)
        night = Night.objects.create(event=event, from_at=NOW + HOUR, until_at=NOW + 5 * HOUR, due_at=NOW + 15 * HOUR)
        hub = job(heron, cast, title="Hub bearing", made_at=NOW - HOUR)

        @classmethod
        def overnight(cls, row=None):
            nights.do_overnight(row or cls.hub, cls.night, by=cls.ines, at=NOW)

    for member in (cast.owner, cast.helper):
        evenings(member)
    Fair.event.people.add(cast.owner)
    return Fair
