"""Which readings still hold after the work that was done since, and which job made one void."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.running import RUNNING_CHANGES
from builds.readings.engine.vocabulary import READINGS, in_measuring_order
from builds.work.engine.running import Run, run_since

MISSING, AHEAD, VOID, RAN, OLD, STANDS = "missing", "ahead", "void", "ran", "old", "stands"
LAPSED = frozenset({AHEAD, VOID, RAN, OLD})  # taken once, and to be taken again
FINISHED, LEFT, GOES_ON, WRITTEN, PULLED = "finished", "left", "goes on", "written", "pulled"
FOUND, READ_OUT, READ_FAILED = "found", "read out", "read failed"
LAST_ACT = timedelta(minutes=30)
"""What ended later than that after a reading may have been worked on meanwhile. Our own choice, no source."""


@dataclass(frozen=True, slots=True)
class FinishedWork:
    """Work that ended on a car: its kinds (slugs), when it ended, when hands last went to it.

    `end` is how: finished, left half done, that it goes on (it has then spoilt all that was taken until now), that
    a crash was written down, that a part was pulled; the `title` is then the part's name. What was only seen (found,
    read out of its limits, failed) says itself what it `spoils` (slugs). `measures` are the readings that it takes.
    """

    id: int
    title: str
    kinds: tuple[str, ...]
    ended: datetime
    begun: datetime | None = None
    end: str = FINISHED
    spoils: frozenset[str] | None = None
    measures: tuple[str, ...] = ()

    @property
    def voids(self) -> frozenset[str]:
        return voided_by(self.kinds) if self.spoils is None else self.spoils


def pulled_work(job: int, part: str, kinds: tuple[str, ...], at: datetime) -> FinishedWork:
    """Of a part (its name) that came off and that a job (id) gives back."""
    return FinishedWork(job, part, kinds, at, end=PULLED)


@dataclass(frozen=True, slots=True)
class TakenReading:
    """When a reading was taken; `last_of` is the job (id) whose last act it was, if it was one.

    `ahead` where that is still to come: the clock was wrong when it was written down.
    """

    at: datetime
    last_of: int | None = None
    ahead: bool = False


@dataclass(frozen=True, slots=True)
class ReadingStanding:
    """How a reading stands: missing, ahead, void, ran, old or stands.

    A void one is void since `work` ended; `through` is the reading (slug) below it that this
    work made void, when it is only void by resting on that. `run` is what it is not known since.
    """

    kind: str
    state: str
    work: FinishedWork | None = None
    through: str = ""
    run: Run | None = None


def makes_void(work: FinishedWork, kind: str, taken: TakenReading) -> bool:
    """Whether this work makes a reading (slug) void: it does when it ended no sooner than it was taken.

    What was seen in the same moment was seen together with it, and takes nothing from it.
    A reading that was the last act of a job holds although the job is ended afterwards, or in the same moment,
    unless hands went to that job again, or may have: it ended long after the reading.
    """
    if kind not in work.voids or work.ended < taken.at or (work.spoils is not None and work.ended == taken.at):
        return False
    return not _was_last(taken, work.id, work.begun, None if work.end == GOES_ON else work.ended)


def _was_last(taken: TakenReading, job: int, begun: datetime | None, ended: datetime | None) -> bool:
    """Whether it was the last act of a job (id): no hands went to it again, nor may have; None while it goes on."""
    again = begun is not None and begun > taken.at
    return job == taken.last_of and not again and (ended is None or ended - taken.at <= LAST_ACT)


def void_by(kind: str, taken: TakenReading, done: Iterable[FinishedWork]) -> FinishedWork | None:
    """The first work, by its end, that made a reading (slug) void; None while it holds.

    What rests on a void reading is void too: ride height, then corner weights, then camber and
    caster, then toe. ValueError for an unknown kind of work. Only measuring again mends it.
    Source: common practice, no source.
    """
    voiding = [work for work in done if makes_void(work, kind, taken)]
    return min(voiding, key=lambda work: (work.ended, work.id), default=None)


def standings(
    taken: Mapping[str, TakenReading | None],
    done: Collection[FinishedWork],
    runs: Collection[Run] = (),
    not_before: Mapping[str, datetime] | None = None,
) -> dict[str, ReadingStanding]:
    """How each kind of reading (slug) stands, given when it was last taken (None: never).

    Besides work of its own, a reading is void while one that it rests on is void; a base that
    was never taken, or is not among those given, says nothing. What no work made void is not known
    once the car ran; then it may be too old, taken before the moment that its kind has in
    `not_before`.
    """
    standing_of: dict[str, ReadingStanding] = {}
    for kind in in_measuring_order(taken):  # so that what a reading rests on is settled before it
        last = taken[kind]
        standing = standing_by(kind, kind, last, done, runs, not_before=not_before)
        if last is not None and standing.state not in (AHEAD, VOID):
            work, through = _below(kind, standing_of)
            standing = ReadingStanding(kind, VOID, work, through) if work else standing
        standing_of[kind] = standing
    return standing_of


def standing_by(
    key: str,
    follows: str,
    taken: TakenReading | None,
    done: Iterable[FinishedWork],
    runs: Iterable[Run],
    *,
    not_before: Mapping[str, datetime] | None = None,
) -> ReadingStanding:
    """How a reading stands by itself, its bases aside; it goes void with `follows` (slug), if any."""
    if taken is None:
        return ReadingStanding(key, MISSING)
    if taken.ahead:  # nobody knows what was done before it, and what after
        return ReadingStanding(key, AHEAD)
    if follows in READINGS and (work := void_by(follows, taken, done)):
        return ReadingStanding(key, VOID, work)
    if follows in RUNNING_CHANGES and (run := run_since(taken.at, _besides(taken, runs))):
        return ReadingStanding(key, RAN, run=run)
    if not_before and key in not_before and taken.at < not_before[key]:
        return ReadingStanding(key, OLD)
    return ReadingStanding(key, STANDS)


def _besides(taken: TakenReading, runs: Iterable[Run]) -> Iterator[Run]:
    """Without the drive whose last act a reading was."""
    return (run for run in runs if not _was_last(taken, run.job, run.begun, run.since))


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

    Those that have lapsed, those that work still to do will make void (`coming`: its kinds, job by
    job), and the lapsed ones on record that they rest on.
    """
    ahead = voided_by({kind for kinds in coming for kind in kinds})
    need = {kind for kind in wanted if kind in READINGS and (kind in ahead or _has_lapsed(standing_of, kind))}
    waiting = list(need)
    while waiting:
        for base in READINGS[waiting.pop()].rests_on:
            on_record = base in standing_of and standing_of[base].state != MISSING
            if base not in need and on_record and (base in ahead or _has_lapsed(standing_of, base)):
                need.add(base)
                waiting.append(base)
    return in_measuring_order(need)


def _has_lapsed(standing_of: Mapping[str, ReadingStanding], kind: str) -> bool:
    """What only a clock was wrong for is no work: no job is made of it."""
    return kind in standing_of and standing_of[kind].state in LAPSED - {AHEAD}
