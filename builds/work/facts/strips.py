"""Whether a car was stripped at a moment, or off its wheels."""

from datetime import datetime

from django.db.models import Min

from builds.work.models.job import Job
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES
from garage.models import Vehicle

# Kinds of work at whose end the car is on its wheels.
ON_WHEELS = frozenset({"wheels_on", "driven"})


def stripped_until(vehicle: Vehicle, at: datetime) -> str:
    """The job that puts it back, of a strip that was begun then and not ended; empty when it was whole."""
    strips = StationHold.objects.filter(first__vehicle=vehicle).with_begun().filter(begun=True)
    for kept in strips.select_related("last"):
        since = Span.objects.filter(job=kept.first_id).by_hands().aggregate(first=Min("from_at"))["first"]
        ended = kept.last.finished_at if kept.last.state in FINISHED_STATES else None
        if (since is None or since <= at) and (ended is None or ended > at):
            return kept.last.title
    return ""


def on_stands(vehicle: Vehicle) -> bool:
    """By somebody's word, not since work took it off its wheels. Nobody keeps since when."""
    return vehicle.state == Vehicle.State.STANDS and not vehicle.stood


def off_its_wheels(vehicle: Vehicle, at: datetime, during: Job | None = None) -> bool:
    """Stripped then, or on stands; what is read in a job that puts it on its wheels is read on them."""
    on_them = during is not None and not ON_WHEELS.isdisjoint(during.kinds)
    return bool(stripped_until(vehicle, at)) or (on_stands(vehicle) and not on_them)
