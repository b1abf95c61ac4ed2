"""The figures of a season: what moved, what a fit car costs in taps, and whether the odds came true."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime

from builds.odds.simulate import simulate
from builds.plan.engine.ids import id_of
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count, spread_that_all_share
from builds.plan.facts.must_do import must_do
from builds.verdict.facts.verdict import verdicts
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from garage.models import Entry
from tests.season.people import Season

RUNS = 40
BANDS = ((0.0, 0.2), (0.2, 0.5), (0.5, 0.8), (0.8, 1.01))


@dataclass
class Odds:
    """By entry (pk) the odds told each morning; once its car must leave, whether its work was done."""

    season: Season
    told: dict[int, list[float]] = field(default_factory=dict)
    due: dict[int, datetime] = field(default_factory=dict)
    made_it: dict[int, bool] = field(default_factory=dict)
    fit: dict[str, list[int]] = field(default_factory=dict)

    def morning(self) -> None:
        """Of the plan on the wall, as a page would ask; few runs."""
        self.settle()
        garage, at, plan = self.season.made.garage, self.season.at, self.season.plan
        self.count_fit()
        if plan is None:
            return
        estimates = figures(load_work(garage, at), factors_that_count(garage))
        odds = simulate(plan.problem, estimates, runs=RUNS, shared=spread_that_all_share(garage))
        first: set[int] = set()
        for entry in Entry.objects.in_garage(garage).upcoming(at).select_related("event"):
            car = odds.vehicles.get(id_of("car", entry.vehicle_id))
            if entry.vehicle_id in first or entry.event.due_at <= at:
                continue
            first.add(entry.vehicle_id)
            if car is not None and car.share is not None:
                self.told.setdefault(entry.pk, []).append(car.share)
                self.due[entry.pk] = entry.event.due_at

    def settle(self) -> None:
        """The morning on which a car must leave comes before it must: what is open then is late."""
        for pk, due in self.due.items():
            if pk not in self.made_it and due <= self.season.at:
                entry = Entry.objects.get(pk=pk)
                was_open = Job.objects.on(entry.vehicle).filter(made_at__lt=due).exclude(state="dropped")
                late = [job for job in was_open if not job.finished_at or job.finished_at > due]
                self.made_it[pk] = not must_do(late)

    def count_fit(self) -> None:
        """The taps of a car from when it was fit, or the season began, until it is fit again."""
        for car, judged in verdicts(self.season.made.garage, self.season.at).items():
            name = next(name for name, vehicle in self.season.made.cars.items() if vehicle.pk == car)
            if judged.state == "fit" and self.season.acts[name] > 2:
                self.fit.setdefault(name, []).append(self.season.acts[name])
                self.season.acts[name] = 0

    def lines(self) -> Iterator[str]:
        season = self.season
        moved = [count for _, count in season.moved]
        yield f"plans made: {len(moved)}"
        yield f"jobs moved by more than a day: {sum(moved)} in all, {sum(moved) / max(1, len(moved)):.2f} a plan"
        yield f"plans that moved none so far: {moved.count(0)}; most in one plan: {max(moved, default=0)}"
        for name, taps in sorted(self.fit.items()):
            yield f"{name} was fit after so many acts each time: {', '.join(map(str, taps))}"
        yield f"cars that went: {season.figures['went']}, that stayed at home: {season.figures['stayed at home']}"
        yield "odds told        days told    made it"
        for low, high in BANDS:
            came = [self.made_it[pk] for pk, odds in self.told.items() for share in odds if low <= share < high
                    if pk in self.made_it]  # fmt: skip
            share = f"{sum(came) / len(came):.0%}" if came else "-"
            yield f"{low:>4.0%} to {min(high, 1):>4.0%} {len(came):>15} {share:>10}"
        yield f"acts: {dict(sorted(season.figures.items()))}"
