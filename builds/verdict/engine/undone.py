"""What stands today and planned work undoes: joints it opens, ticks it touches, readings it makes void."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from builds.joints.engine.joints import opens
from builds.readings.engine.kinds_of_work import disturbed_by, voided_by
from builds.verdict.engine.records import STANDS, CheckFact, JointFact, ReadingFact
from builds.work.engine.car_work import CarWork

# A reading that a planned job takes again; one out of its limits is not mended by measuring.
MEASURED = ("missing", "void", "note", "ran", "asked", "old", "ahead", "instrument", STANDS)


@dataclass(frozen=True, slots=True)
class ComingWork:
    """Planned work on the car, in its own order: what it does (slugs), and the readings (slugs) it takes."""

    title: str
    kinds: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    wanted: bool = False

    @property
    def work(self) -> CarWork:
        return CarWork(self.title, frozenset(self.systems), frozenset(self.kinds), None, self.wanted)


def joints_then(joints: Iterable[JointFact], coming: Collection[ComingWork]) -> Iterator[JointFact]:
    """The joints once the work is done, which is in the order in which it ends."""
    works = [job.work for job in coming]
    for joint in joints:
        opening = [work for work in works if opens(joint, work)] if joint.state == STANDS else []
        words = f"“{opening[-1].title}” opens it." if opening else ""
        yield replace(joint, state="opened", words=words) if opening else joint


def checks_then(checks: Iterable[CheckFact], coming: Collection[ComingWork]) -> Iterator[CheckFact]:
    """The items once the work is done; what it touches wants its tick again."""
    works = [job.work for job in coming]
    for check in checks:
        kinds = disturbed_by(check.kinds) if check.state == STANDS else frozenset()
        touched = check.state == STANDS and any(work.touches(check.systems, kinds) for work in works)
        yield replace(check, state="open") if touched else check


def readings_then(readings: Iterable[ReadingFact], coming: Collection[ComingWork]) -> Iterator[ReadingFact]:
    """The readings that no job has mended by then: of each the last job counts that takes or spoils it.

    A job that takes what it spoils takes it as its last act. ValueError for an unknown kind of work.
    """
    for reading in readings:
        last = next((job for job in reversed([*coming]) if _concerns(job, reading)), None)
        if last is not None and reading.slug in last.measures and reading.state in MEASURED:
            continue
        if last is not None and reading.state == STANDS:
            words = f"“{last.title}” undoes it, and nobody measures it after that."
            yield replace(reading, state="void", words=words)
        else:
            yield reading


def _concerns(job: ComingWork, reading: ReadingFact) -> bool:
    return reading.slug in job.measures or (reading.follows or reading.slug) in voided_by(job.kinds)
