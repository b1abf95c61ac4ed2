"""Sums that were kept on a car, and the work since that makes one void."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import sum_called
from builds.bench.frame.sums import Sum
from builds.readings.engine.void import GOES_ON, FinishedWork, TakenReading, makes_void
from builds.readings.facts.finished import finished_work
from builds.sums.models import KeptSum
from garage.models import Vehicle


@dataclass(frozen=True)
class KeptStanding:
    """`void` is the work since, or going on, that took what it rests on; `done` the work that did what it plans."""

    kept: KeptSum
    asked: Sum
    void: FinishedWork | None = None
    done: FinishedWork | None = None


def newest_kept(vehicle: Vehicle, at: datetime, names: Iterable[str] | None = None) -> list[KeptStanding]:
    """The newest of each sum kept on a car (of these `names`), newest first, and how it stands; four queries."""
    rows = KeptSum.objects.on(vehicle).newest().select_related("by__person")
    newest: dict[str, KeptSum] = {}
    for kept in rows if names is None else rows.filter(name__in=list(names)):
        newest.setdefault(kept.name, kept)
    known = [(kept, asked) for kept in newest.values() if (asked := sum_called(kept.name))]
    if not known:
        return []
    works = finished_work([vehicle], min(kept.at for kept, _ in known), at).get(vehicle.pk, [])
    works.sort(key=lambda work: (work.ended, work.id))
    return [_standing(kept, asked, works) for kept, asked in known]


def _standing(kept: KeptSum, asked: Sum, works: list[FinishedWork]) -> KeptStanding:
    """What a sum plans has to be done once: that work, once it is over, makes it true, the next makes it void."""
    since = [work for work in works if work.ended >= kept.at]
    planned = set(asked.offered.kinds)
    planned_work = next((work for work in since if not planned.isdisjoint(work.kinds)), None)
    taken = TakenReading(kept.at)
    void = next(
        (
            work
            for work in since
            if work is not planned_work and any(makes_void(work, kind, taken) for kind in asked.offered.readings)
        ),
        None,
    )
    over = planned_work if planned_work and planned_work.end != GOES_ON else None
    return KeptStanding(kept, asked, void, over)
