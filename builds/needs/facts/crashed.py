"""What went through a crash with a car that it was taken off."""

from typing import NamedTuple

from django.db.models import Q

from builds.work.models.job import Job, names_any
from garage.access import OWNER
from parts.models import Move, Part, Place


class Crashed(NamedTuple):
    """The car that a part came off, and the job that its crash was written down as."""

    car: str
    title: str


def crashed_with(part: Part) -> Crashed | None:
    """The crash that the part was in on the car that it last came off, unless the owner said since that it is good.

    What went on that car after the crash was not in it. Two or three queries.
    """
    last = Move.objects.standing().filter(part=part, source__kind=Place.Kind.CAR).order_by("-at", "-pk")
    off = last.select_related("source__vehicle").first()
    if off is None:
        return None
    by = part.condition_by
    if part.condition_at and part.condition_at > off.at and (by is None or by.role == OWNER):
        return None
    on = Move.objects.standing().filter(part=part, target=off.source, at__lt=off.at).order_by("-at", "-pk").first()
    since = Q(made_at__gt=on.at) if on else Q()
    crashes = Job.objects.filter(since, vehicle=off.source.vehicle_id, made_at__lte=off.at)
    crash = crashes.with_texts().filter(names_any("kinds", ["crash"])).order_by("-made_at").first()
    return Crashed(str(off.source.vehicle), crash.title) if crash else None
