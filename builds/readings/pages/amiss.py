"""What is said at once of readings that were just written down and are not as they must be."""

from collections.abc import Collection, Iterable

from builds.readings.engine.amiss import amiss_words, opened_words, sets_words
from builds.readings.engine.judge import OUT
from builds.readings.engine.kind_line import KindLine
from builds.readings.facts.amiss import mends_of, newest_lines, sets_next
from builds.readings.facts.kinds import kinds_of
from garage.models import Garage, Vehicle


def amiss_said(vehicle: Vehicle, keys: Collection[str]) -> str:
    """Of kinds (keys) what failed or is out of its limits, and the job that mends it; empty when all is right."""
    if not keys:
        return ""
    said = []
    for key, line in newest_lines(vehicle, kinds_of(vehicle.garage)).items():
        if key in keys and line.judged == OUT:
            said.append(amiss_words(line, vehicle.garage.units))
            mends = list(mends_of(vehicle, line.kind))
            said += [opened_words(job.title, job.rank) for job in mends]
            if not (mends or line.failed):
                said += [sets_words(job.title) for job in sets_next(line.reading, line.kind)[:1]]
    return " ".join(said)


def amiss_sentences(lines: Iterable[KindLine], garage: Garage) -> str:
    """What was found out of order at the end of a job, for whoever signs it."""
    return " ".join(amiss_words(line, garage.units) for line in lines)
