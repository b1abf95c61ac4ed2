"""What taking a part off a car would do to it, said before it is done."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from builds.readings.engine.kinds_of_work import pulled_kinds, voided_by
from builds.readings.engine.void import STANDS
from builds.readings.facts.readings import CarReadings, readings_of
from builds.verdict.engine import JobFact, verdict
from builds.verdict.facts.verdict import facts_of
from builds.work.engine.ranks import rank_for
from garage.models import Vehicle
from parts.models import Part

NOT_YET_WRITTEN = 0


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
    rank = rank_for(part.systems) or "needed"
    donors = list(cars)
    readings = readings_of(part.garage, donors) if donors else {}
    owed = JobFact(NOT_YET_WRITTEN, f"Owed: {part}", rank, "open", tuple(part.systems))
    found = []
    for pk, facts in facts_of(part.garage, at, donors).items() if donors else ():
        car = next(each for each in donors if each.pk == pk)
        before, after = verdict(facts), verdict(replace(facts, jobs=(*facts.jobs, owed)))
        will = "is not and will not be" if before.state == "not_fit" else "will not be"
        found.append(
            Robbed(
                car,
                f"{car} {will} fit to run: it is owed {part} ({rank}).",
                after.sentence,
                after.do_not_drive,
                _void(readings[pk], part),
            )
        )
    return found


def _void(car: CarReadings, part: Part) -> tuple[str, ...]:
    gone = voided_by(pulled_kinds(part.systems))
    stand = [line.kind for line in car.lines.values() if line.state == STANDS]
    return tuple(kind.label for kind in stand if kind.follows in gone)
