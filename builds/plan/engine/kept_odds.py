"""Odds as they are kept beside their plan."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builds.odds.answer import JobOdds, Odds, VehicleOdds

HELD_KEPT = 8
"""Of the jobs that held a car up, those that did it most often."""


@dataclass(frozen=True)
class KeptOdds:
    """The odds of a plan. `more_work`: by car, the minutes of one more job that leave it in time, None for
    one late as it is. `rests_on` digests what they were drawn from besides the plan.
    """

    odds: Odds
    more_work: Mapping[str, int | None]
    rests_on: str


def odds_table(kept: KeptOdds) -> dict[str, Any]:
    """As JSON keeps it: ready slots by how often, those that were not before the horizon left out."""
    odds = kept.odds
    cars = {car: _car_table(of_car, kept.more_work.get(car)) for car, of_car in odds.vehicles.items()}
    return {"runs": odds.runs, "asked": odds.asked, "seed": odds.seed, "rests_on": kept.rests_on, "cars": cars}


def _car_table(car: VehicleOdds, more: int | None) -> dict[str, Any]:
    ready = Counter(int(moment) for moment in car.moments if moment != float("inf"))
    return {
        "in_time": car.in_time,
        "ready": sorted(ready.items()),
        "held_by": [[job.job, job.held_up] for job in car.held_by[:HELD_KEPT]],
        "more_minutes": more,
    }


def odds_from(table: dict[str, Any]) -> KeptOdds:
    """The odds that `odds_table` wrote."""
    runs, cars = table["runs"], table["cars"]
    vehicles = {car: _car_from(car, runs, of_car) for car, of_car in cars.items()}
    more = {car: of_car["more_minutes"] for car, of_car in cars.items()}
    return KeptOdds(Odds(runs, table["asked"], table["seed"], vehicles), more, table["rests_on"])


def _car_from(car: str, runs: int, table: dict[str, Any]) -> VehicleOdds:
    ready = [float(slot) for slot, times in table["ready"] for _ in range(times)]
    moments = (*ready, *[float("inf")] * (runs - len(ready)))
    held = tuple(JobOdds(job, runs, count) for job, count in table["held_by"])
    return VehicleOdds(car, runs, table["in_time"], moments, held)
