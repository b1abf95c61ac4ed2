"""Which readings still hold after the work that was done since, and which job made one void."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.vocabulary import READINGS, in_measuring_order

MISSING, VOID, STANDS = "missing", "void", "stands"


@dataclass(frozen=True, slots=True)
class FinishedWork:
    """Work finished on a car: its kinds (slugs), when it ended, when hands last went to it."""

    id: int
    title: str
    kinds: tuple[str, ...]
    ended: datetime
    begun: datetime | None = None


@dataclass(frozen=True, slots=True)
class TakenReading:
    """When a reading was taken; `last_of` is the job (id) whose last act it was, if it was one."""

    at: datetime
    last_of: int | None = None


@dataclass(frozen=True, slots=True)
class ReadingStanding:
    """How a reading stands: missing, void or stands.

    A void one is void since `work` ended; `through` is the reading (slug) below it that this
    work made void, when it is only void by resting on that.
    """

    kind: str
    state: str
    work: FinishedWork | None = None
    through: str = ""


def makes_void(work: FinishedWork, kind: str, taken: TakenReading) -> bool:
    """Whether this work makes a reading (slug) void: it does when it ended after it was taken.

    A reading that was the last act of a job holds although the job is ended only afterwards,
    unless hands went to that job again.
    """
    if kind not in voided_by(work.kinds) or work.ended <= taken.at:
        return False
    was_last = work.id == taken.last_of and (work.begun is None or work.begun <= taken.at)
    return not was_last


def void_by(kind: str, taken: TakenReading, done: Iterable[FinishedWork]) -> FinishedWork | None:
    """The first work, by its end, that made a reading (slug) void; None while it holds.

    What rests on a void reading is void too: ride height, then corner weights, then camber and
    caster, then toe. ValueError for an unknown kind of work. Only measuring again mends it.
    Source: common practice, no source.
    """
    voiding = [work for work in done if makes_void(work, kind, taken)]
    return min(voiding, key=lambda work: (work.ended, work.id), default=None)


def standings(taken: Mapping[str, TakenReading | None], done: Collection[FinishedWork]) -> dict[str, ReadingStanding]:
    """How each kind of reading (slug) stands, given when it was last taken (None: never).

    Besides work of its own, a reading is void while one that it rests on is void; a base that
    was never taken, or is not among those given, says nothing.
    """
    standing_of: dict[str, ReadingStanding] = {}
    for kind in in_measuring_order(taken):  # so that what a reading rests on is settled before it
        last = taken[kind]
        if last is None:
            standing_of[kind] = ReadingStanding(kind, MISSING)
            continue
        work, through = void_by(kind, last, done), ""
        if work is None:
            work, through = _below(kind, standing_of)
        standing_of[kind] = ReadingStanding(kind, VOID if work else STANDS, work, through)
    return standing_of


def _below(kind: str, standing_of: Mapping[str, ReadingStanding]) -> tuple[FinishedWork | None, str]:
    for base in READINGS[kind].rests_on:
        below = standing_of.get(base)
        if below and below.state == VOID:
            return below.work, below.through or base
    return None, ""


def to_measure(
    standing_of: Mapping[str, ReadingStanding], wanted: Collection[str], coming: Iterable[Collection[str]] = ()
) -> tuple[str, ...]:
    """What must be measured again so that the wanted readings (slugs) stand, in measuring order.

    Those that are void, those that work still to do will make void (`coming`: its kinds, job by
    job), and the void ones on record that they rest on.
    """
    ahead = voided_by({kind for kinds in coming for kind in kinds})
    need = {kind for kind in wanted if kind in READINGS and (kind in ahead or _is_void(standing_of, kind))}
    waiting = list(need)
    while waiting:
        for base in READINGS[waiting.pop()].rests_on:
            on_record = base in standing_of and standing_of[base].state != MISSING
            if base not in need and on_record and (base in ahead or _is_void(standing_of, base)):
                need.add(base)
                waiting.append(base)
    return in_measuring_order(need)


def _is_void(standing_of: Mapping[str, ReadingStanding], kind: str) -> bool:
    return kind in standing_of and standing_of[kind].state == VOID
