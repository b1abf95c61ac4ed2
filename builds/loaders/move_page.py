"""What the page of a move says before it is made."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.loaders.robbing import Robbed, robbed
from builds.models import Job, Need
from parts.engine.ledger import VERBS
from parts.models import Part, Place


@dataclass(frozen=True)
class MoveView:
    """`robbed` has what each car it may come from would then be."""

    button: str
    robbed: tuple[Robbed, ...]


def wanting_jobs(part: Part) -> list[int]:
    """Open jobs (pk) that want this part."""
    rows = Need.objects.in_garage(part.garage_id).open().filter(part=part)
    return list(rows.order_by("job_id").values_list("job_id", flat=True).distinct())


def move_view(part: Part, verb: str, sources: Iterable[Place], job: str, at: datetime) -> MoveView:
    """`job` is the one chosen so far (its pk as text); work on the donor itself robs nothing."""
    chosen = Job.objects.in_garage(part.garage_id).filter(pk=job).first() if job else None
    cars = [
        place.vehicle
        for place in sources
        if place.kind == Place.Kind.CAR and (not chosen or chosen.vehicle_id != place.vehicle_id)
    ]
    return MoveView(VERBS[verb].button, tuple(robbed(part, cars, at)))
