"""What the verdict is told of readings, car by car."""

from datetime import datetime
from zoneinfo import ZoneInfo

from builds.readings.facts.readings import readings_of
from builds.readings.models.target import RequiredReadings
from builds.verdict.engine import ReadingFact
from builds.verdict.engine.reading_facts import reading_facts
from garage.models import Entry, Garage, Vehicle

FactsByCar = dict[int, tuple[ReadingFact, ...]]


def readings_facts(garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]) -> FactsByCar:
    """Of each car (pk) that has its readings on record, those that it must have.

    A car left out has nothing on record, which is not known and therefore not fit: nobody said
    which readings it must have. `entries` play no part: a reading stands or not, whatever is next.
    """
    if not RequiredReadings.objects.filter(vehicle__in=cars).exists():
        return {}
    zone = ZoneInfo(garage.time_zone)
    return {
        pk: tuple(reading_facts(car.required_lines, garage.units, zone, at))
        for pk, car in readings_of(garage, cars, at).items()
        if car.required is not None
    }
