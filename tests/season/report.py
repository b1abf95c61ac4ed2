"""The figures of a season: what moved, what a fit car costs in forms, and whether the odds came true."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime

from builds.plan.actions.odds import with_odds
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.facts.must_do import must_do
from builds.work.models.job import Job
from garage.models import Entry, Garage
from tests.season.people import Season

RUNS = 40
BANDS = ((0.0, 0.2), (0.2, 0.5), (0.5, 0.8), (0.8, 1.01))


@dataclass(frozen=True)
class Told:
    """What the odds said one morning, of the work (pk) that was known then."""

    share: float
    known: frozenset[int]


@dataclass(frozen=True)
class Came:
    """What came of a morning's odds: whether the work known then was done in time, and whether all of it was."""

    share: float
    known_in_time: bool
    all_in_time: bool


@dataclass
class Odds:
    """By entry (pk) what was told each morning until its car must leave, and then what came of it."""

    season: Season
    told: dict[int, list[Told]] = field(default_factory=dict)
    due: dict[int, datetime] = field(default_factory=dict)
    came: dict[int, list[Came]] = field(default_factory=dict)

    def morning(self) -> None:
        """Kept beside the plan on the wall, as the worker does it, with fewer runs: pages are led by them then."""
        self.settle()
        garage, at = Garage.objects.get(pk=self.season.made.garage.pk), self.season.at
        plan = with_odds(garage)
        if plan is None or plan.odds is None:
            return
        known, first = must_do(Job.objects.in_garage(garage).open()), set[int]()
        for entry in Entry.objects.in_garage(garage).upcoming(at).select_related("event"):
            if entry.vehicle_id in first or entry.event.due_at <= at:
                continue
            first.add(entry.vehicle_id)
            car = plan.odds.odds.vehicles.get(id_of("car", entry.vehicle_id))
            if car is not None and car.share is not None:
                jobs = frozenset(pk_of(job.id) for job in known.get(entry.vehicle_id, ()))
                self.told.setdefault(entry.pk, []).append(Told(car.share, jobs))
                self.due[entry.pk] = entry.event.due_at

    def settle(self) -> None:
        """The morning on which a car must leave comes before it must: what is open then is late."""
        for pk, due in self.due.items():
            if pk not in self.came and due <= self.season.at:
                entry = Entry.objects.get(pk=pk)
                asked = Job.objects.on(entry.vehicle).filter(made_at__lt=due).exclude(state="dropped")
                asked = asked.exclude(rank=Job.Rank.WANTED)
                late = {job.pk for job in asked if not job.finished_at or job.finished_at > due}
                self.came[pk] = [Came(told.share, not told.known & late, not late) for told in self.told[pk]]

    def lines(self) -> Iterator[str]:
        season = self.season
        moved = [count for _, count in season.moved]
        yield f"plans made: {len(moved)}"
        yield f"jobs moved by more than a day: {sum(moved)} in all, {sum(moved) / max(1, len(moved)):.2f} a plan"
        yield f"plans that moved none so far: {moved.count(0)}; most in one plan: {max(moved, default=0)}"
        yield f"cars that went: {season.figures['went']}, that stayed at home: {season.figures['stayed at home']}"
        yield f"forms sent: {dict(sorted(season.figures.items()))}"
        yield from season.acts.lines()
        for pk, told in self.told.items():
            entry = Entry.objects.select_related("event", "vehicle").get(pk=pk)
            ended = {True: "made it", False: "did not", None: "is still ahead"}
            made = self.came[pk][0].all_in_time if pk in self.came else None
            shares = " ".join(f"{one.share:.2f}" for one in told)
            yield f"{entry.vehicle}, {entry.event}: {ended[made]}; told each morning {shares}"
        yield from calibration(came for of_entry in self.came.values() for came in of_entry)


def calibration(came: Iterable[Came]) -> Iterator[str]:
    """What was told each morning beside what came of it, in bands of the share that was told."""
    came = list(came)
    yield "odds told    mornings  on average  work known then in time  all its work in time"
    for low, high in BANDS:
        band = [one for one in came if low <= one.share < high]
        said, known, everything = (
            _mean(getattr(one, name) for one in band) for name in ("share", "known_in_time", "all_in_time")
        )
        yield f"{low:>4.0%} to {min(high, 1):>4.0%} {len(band):>8} {said:>11} {known:>24} {everything:>21}"


def _mean(values: Iterable[float]) -> str:
    values = list(values)
    return f"{sum(values) / len(values):.0%}" if values else "-"
