"""What was read out of order has a job that mends it: opened with the reading, gone once other work has set it."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.readings.engine.amiss import (
    MENDED,
    SET_BY_HAND,
    opens_job,
    rank_of,
    systems_read,
    title_of,
    title_of_out,
)
from builds.readings.engine.judge import IN
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.kinds_said import kinds_said
from builds.readings.facts.amiss import mends_of, newest_lines, sets_next
from builds.readings.facts.kinds import kinds_of
from builds.readings.models.reading import Reading
from builds.work.actions import turn
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Membership, Vehicle

# Minutes: goes well, likely, fights back. Invented.
FIRST_GUESS = (30, 60, 120)


@transaction.atomic
def follow(vehicle: Vehicle, readings: Iterable[Reading], *, by: Membership, at: datetime) -> None:
    """Open the jobs that mend what these readings found, each where none is open for it already.

    One that only sets a figure, and that nobody has begun, goes by itself once other work has set it: what that
    opened is known. A figure that comes right by itself was set by somebody who has not said what he turned; what is
    only a note, or has no limit any more, says nothing. An older reading than one that is there says nothing.
    """
    taken = {reading.pk: reading for reading in readings}
    lines = newest_lines(vehicle, kinds_of(vehicle.garage)) if taken else {}
    changed = False
    for line in lines.values():
        if (reading := taken.get(getattr(line.reading, "pk", None))) is None:
            continue
        if opens_job(line):
            changed |= _open(line, reading, by=by, at=at)
        elif line.judged == IN and not line.only_a_note and _is_set_by_work(reading, line):
            changed |= _close(vehicle, line, by=by, at=at)
    if changed:
        remeasure.settle(vehicle, by=by, at=at)


def _open(line: KindLine, reading: Reading, *, by: Membership, at: datetime) -> bool:
    """A figure that an open job is to set all the same is left to that one."""
    if mends_of(reading.vehicle, line.kind).filter(title=title_of(line)).exists():
        return False
    if not line.failed and sets_next(reading, line.kind):
        return False
    title, systems = title_of(line), systems_read(line.kind)
    low, likely, high = FIRST_GUESS
    during = reading.last_of
    Job.objects.create(
        vehicle=reading.vehicle,
        title=title,
        systems=list(systems),
        kinds=list(kinds_said(title, systems)),
        kinds_likely=True,
        measures=[line.kind.key],
        rank=rank_of(line.kind),
        low_minutes=low,
        likely_minutes=likely,
        high_minutes=high,
        skill=during.skill if during else None,
        found_in=during,
        made_by=by,
        made_at=at,
    )
    return True


def _is_set_by_work(reading: Reading, line: KindLine) -> bool:
    """As the last act of a job that is more than measuring again, or with a pump alone, which opens nothing."""
    work = reading.last_of
    return line.kind.follows in SET_BY_HAND or (work is not None and work.recipe not in TAKEN_AGAIN)


def _close(vehicle: Vehicle, line: KindLine, *, by: Membership, at: datetime) -> bool:
    untouched = mends_of(vehicle, line.kind).filter(title=title_of_out(line.kind), state=State.OPEN, spans=None)
    for job in untouched:
        turn(job, "drop", by=by, at=at, note=MENDED, state_note=MENDED, finished_at=None)
    return bool(untouched)
