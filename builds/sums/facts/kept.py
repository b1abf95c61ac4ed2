"""Sums that were kept on a car, and the work since that makes one void."""

from collections import defaultdict
from collections.abc import Collection
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

    def void_for(self, job: int) -> FinishedWork | None:
        """As `void`, but for what that job (pk) is doing itself: the sum was worked out for it."""
        own = self.void is not None and self.void.end == GOES_ON and self.void.id == job
        return None if own else self.void


def newest_kept(vehicles: Collection[Vehicle], at: datetime) -> dict[int, list[KeptStanding]]:
    """By car (pk), the newest of each sum kept on it, newest first, and how it stands; four queries."""
    newest: dict[tuple[int, str], KeptSum] = {}
    for kept in KeptSum.objects.filter(vehicle__in=vehicles).newest().select_related("by__person"):
        newest.setdefault((kept.vehicle_id, kept.name), kept)
    known = [(kept, asked) for kept in newest.values() if (asked := sum_called(kept.name))]
    standing: dict[int, list[KeptStanding]] = defaultdict(list)
    if not known:
        return standing
    works = finished_work(vehicles, min(kept.at for kept, _ in known), at)
    for kept, asked in known:
        done = sorted(works.get(kept.vehicle_id, []), key=lambda work: (work.ended, work.id))
        standing[kept.vehicle_id].append(_standing(kept, asked, done))
    return standing


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
