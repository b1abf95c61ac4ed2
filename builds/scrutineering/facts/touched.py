"""What touched each car, and what was seen of it, as the items of its lists take it."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from builds.readings.facts.seen import seen_works
from builds.work.engine.car_work import CarWork
from builds.work.facts.car_works import LOOKED_BACK, works_of
from builds.work.facts.runs import RunsByCar
from garage.models import Garage, Vehicle


def touched_of(
    garage: Garage,
    cars: Iterable[Vehicle],
    at: datetime,
    *,
    back: datetime | None = None,
    runs: RunsByCar | None = None,
) -> dict[int, list[CarWork]]:
    """As `works_of`, with what was seen since: that concerns the items that name its kinds of work alone."""
    held = list(cars)
    works = works_of(garage, held, at, back=back, runs=runs)
    seen = seen_works(garage, back or at - LOOKED_BACK)
    return {
        car.pk: [*works.get(car.pk, ()), *(replace(sight, systems=frozenset()) for sight in seen.get(car.pk, ()))]
        for car in held
    }
