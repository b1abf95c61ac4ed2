"""Sums that were kept on a car, and the work since that makes one void."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import sum_called
from builds.bench.dimensions import dimension_of
from builds.bench.frame.read import texts_of
from builds.bench.frame.sums import Sum
from builds.readings.engine.perches import SPRINGS, sets_cross
from builds.readings.engine.void import GOES_ON, FinishedWork, TakenReading, makes_void
from builds.readings.facts.finished import finished_work
from builds.sums.facts.car import changes_figure
from builds.sums.models import KeptSum
from garage.models import Vehicle


@dataclass(frozen=True)
class KeptStanding:
    """`void` is the work since, or going on, that took what it rests on; `planned` the work that does what it plans."""

    kept: KeptSum
    asked: Sum
    void: FinishedWork | None = None
    planned: FinishedWork | None = None

    @property
    def done(self) -> FinishedWork | None:
        """The work that did what it plans, once it is over; none where it was void before that."""
        late = self.planned and self.void and self.void.ended <= self.planned.ended
        return self.planned if self.planned and self.planned.end != GOES_ON and not late else None

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
    planned = next((work for work in since if _does(work, asked)), None)
    void = next((work for work in since if work is not planned and _takes(work, kept, asked)), None)
    return KeptStanding(kept, asked, void, planned)


def _does(work: FinishedWork, asked: Sum) -> bool:
    """Whether it is of the kinds that do what a sum plans; of work on springs, what turns perches for the weights."""
    kinds = set(asked.offered.kinds).intersection(work.kinds)
    return bool(kinds) and (kinds != {SPRINGS} or sets_cross(work))


def _takes(work: FinishedWork, kept: KeptSum, asked: Sum) -> bool:
    """Whether it makes a reading void that the sum goes with, or changes a dimension that it was worked out with."""
    taken = TakenReading(kept.at)
    if any(makes_void(work, kind, taken) for kind in asked.offered.readings):
        return True
    texts = texts_of(asked, kept.typed)
    figures = (dimension_of(ask, texts) for ask in asked.asks if kept.typed.get(ask.slug))
    return any(changes_figure(work, figure) for figure in figures if figure)
