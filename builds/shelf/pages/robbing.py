"""What taking a part off a car would do to it, said before it is done."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.readings.engine.kind_line import CarReadings
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.kinds_said import part_kinds
from builds.readings.engine.kinds_touch import touched
from builds.readings.engine.void import STANDS
from builds.readings.facts.readings import readings_of
from builds.shelf.engine import owed_rank, verdict_when_owed
from builds.verdict.engine import Facts, verdict
from builds.verdict.facts.fleet import facts_of
from garage.models import Vehicle
from parts.models import Part


@dataclass(frozen=True)
class Robbed:
    """`sentence` is what the car is then; `do_not_drive` when it already is that.

    `void` names the readings that stand now and will not.
    """

    car: Vehicle
    sentence: str
    then: str
    do_not_drive: bool
    void: tuple[str, ...] = ()


def robbed(part: Part, cars: Iterable[Vehicle], at: datetime) -> list[Robbed]:
    """The verdict of each donor with the owed job on top of its others."""
    donors = {car.pk: car for car in cars}
    if not donors:
        return []
    readings = readings_of(part.garage, donors.values(), at)
    facts = facts_of(part.garage, at, donors.values())
    return [_robbed(part, car, facts[pk], readings[pk]) for pk, car in donors.items()]


def _robbed(part: Part, car: Vehicle, facts: Facts, readings: CarReadings) -> Robbed:
    kinds = part_kinds(part.name, part.touches, unit=part.is_unit)
    systems = touched(part.touches, kinds)
    before, after = verdict(facts), verdict_when_owed(facts, str(part), systems)
    will = "is not and will not be" if before.state == "not_fit" else "will not be"
    return Robbed(
        car,
        f"{car} {will} fit to run: it is owed {part} ({owed_rank(systems)}).",
        after.sentence,
        after.do_not_drive,
        _void(readings, kinds),
    )


def _void(car: CarReadings, kinds: Iterable[str]) -> tuple[str, ...]:
    gone = voided_by(kinds)
    stand = [line.kind for line in car.lines.values() if line.state == STANDS]
    return tuple(kind.label for kind in stand if kind.follows in gone)
