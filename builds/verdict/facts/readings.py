"""What the verdict is told of readings, car by car."""

from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.facts.readings import readings_of
from builds.verdict.engine import ReadingFact
from builds.verdict.engine.reading_facts import reading_facts
from builds.work.facts.runs import RunsByCar
from garage.models import Garage, Vehicle

FactsByCar = dict[int, tuple[ReadingFact, ...]]


def readings_facts(garage: Garage, cars: list[Vehicle], at: datetime, runs: RunsByCar) -> FactsByCar:
    """Of each car (pk) that has its readings on record, those that it must have.

    A car left out has nothing on record, which is not known and therefore not fit: nobody said
    which readings it must have. A reading stands or not, whatever is next.
    """
    zone = ZoneInfo(garage.time_zone)
    return {
        pk: tuple(reading_facts(car.required_lines, garage.units, zone, at))
        for pk, car in readings_of(garage, cars, at, every_kind=False, ran=runs).items()
        if car.required is not None
    }
