"""What stands only because somebody says that work opened nothing, or less, or that what was seen there is nothing."""

from collections.abc import Collection, Iterator
from datetime import datetime

from builds.readings.engine.kinds_of_work import disturbed_by, pulled_kinds, voided_by
from builds.steps.engine.said_less import less_words
from builds.verdict.engine.facts import Facts, JobFact
from builds.verdict.engine.records import STANDS
from garage.engine.systems import SAFETY_SYSTEMS
from garage.engine.words import listed_in_words

NAMED = 3


def on_word(facts: Facts) -> tuple[str, ...]:
    """The sentences of `worded`."""
    return tuple(worded(facts).values())


def worded(facts: Facts) -> dict[JobFact, str]:
    """One sentence for each finished job said to have opened nothing, or less, while anything older rests on it.

    What such work mostly opens is taken from its systems; once all of that is measured and marked again,
    nobody's word is needed.
    """
    said = [(job, list(_older_than(facts, job))) for job in facts.jobs if job.nothing_because]
    return {job: _words(job, resting) for job, resting in said if resting}


def given_up(facts: Facts) -> dict[JobFact, str]:
    """One sentence for each job that was seen and dropped undone, while anything older rests on that."""
    seen = [(job, list(_left_by(facts, job))) for job in facts.jobs if job.given_up]
    return {job: _dropped_words(job, resting) for job, resting in seen if resting}


def _left_by(facts: Facts, job: JobFact) -> Iterator[str]:
    """Of what hurts nobody the ticks on its own systems: whoever looked since has seen it."""
    if not job.grave:
        yield from _ticked_on(facts, job, job.systems)
        return
    resting = list(_resting(facts, job))
    yield from resting or _ticked_before(facts, job)


def _older_than(facts: Facts, job: JobFact) -> Iterator[str]:
    yield from _less(facts, job) if job.opened_less else _resting(facts, job)
    if job.not_touched:
        yield from _ticked_before(facts, job)


def _less(facts: Facts, job: JobFact) -> Iterator[str]:
    """Of work that opened less than was likely: what that would have opened, and what lies on systems taken off it."""
    for joint in facts.joints:
        off = not disturbed_by(joint.opened_by).isdisjoint(job.not_opened)
        if joint.state == STANDS and _before(joint.since, job) and (off or {*joint.systems} & {*job.not_touched}):
            yield joint.name
    yield from _read_before(facts, job, voided_by((*job.not_opened, *pulled_kinds(job.not_touched))))


def _resting(facts: Facts, job: JobFact) -> Iterator[str]:
    systems = SAFETY_SYSTEMS.intersection((*job.systems, *job.not_touched)) or SAFETY_SYSTEMS
    for joint in facts.joints:
        if joint.state == STANDS and _before(joint.since, job) and not systems.isdisjoint(joint.systems):
            yield joint.name
    yield from _read_before(facts, job, voided_by((*pulled_kinds(systems), *job.not_opened)))


def _read_before(facts: Facts, job: JobFact, spoilt: Collection[str]) -> Iterator[str]:
    for reading in facts.readings:
        if reading.state == STANDS and _before(reading.since, job) and (reading.follows or reading.slug) in spoilt:
            yield reading.label


def _ticked_before(facts: Facts, job: JobFact) -> Iterator[str]:
    systems = SAFETY_SYSTEMS.intersection((*job.systems, *job.not_touched)) or SAFETY_SYSTEMS
    yield from _ticked_on(facts, job, systems)


def _ticked_on(facts: Facts, job: JobFact, systems: Collection[str]) -> Iterator[str]:
    for check in facts.checks:
        if check.state == STANDS and _before(check.since, job) and not {*systems}.isdisjoint(check.systems):
            yield check.name


def _before(since: datetime | None, job: JobFact) -> bool:
    return since is not None and job.ended is not None and since <= job.ended


def _words(job: JobFact, resting: list[str]) -> str:
    why = job.nothing_because.rstrip(".")
    if job.opened_less:
        less = less_words(job.not_opened, job.not_touched)
        return f"{job.called} is said to have been done without this: {less}. Why: {why}. {_older(resting)}"
    return f"{job.called} is said to have opened nothing: {why}. {_older(resting)}"


def _dropped_words(job: JobFact, resting: list[str]) -> str:
    why, who = job.dropped_because.rstrip("."), f" ({job.dropped_by})" if job.dropped_by else ""
    return f"{job.called} was dropped without being done: {why}{who}. {_older(resting)}"


def _older(resting: list[str]) -> str:
    named = resting if len(resting) <= NAMED else [*resting[: NAMED - 1], f"{len(resting) - NAMED + 1} more"]
    return f"Older than that: {listed_in_words(named)}."
