"""What stands only because somebody says that work opened nothing, or that what was seen there is nothing."""

from collections.abc import Iterator
from datetime import datetime

from builds.readings.engine.kinds_of_work import pulled_kinds, voided_by
from builds.verdict.engine.facts import Facts, JobFact
from builds.verdict.engine.records import STANDS
from garage.engine.systems import SAFETY_SYSTEMS
from garage.engine.words import listed_in_words

NAMED = 3


def on_word(facts: Facts) -> tuple[str, ...]:
    """The sentences of `worded`."""
    return tuple(worded(facts).values())


def worded(facts: Facts) -> dict[JobFact, str]:
    """One sentence for each finished job that is said to have opened nothing, while anything older rests on it.

    What such work mostly opens is taken from its systems; once all of that is measured and marked again,
    nobody's word is needed.
    """
    said = [(job, list(_resting(facts, job))) for job in facts.jobs if job.nothing_because]
    return {job: _words(job, resting) for job, resting in said if resting}


def given_up(facts: Facts) -> dict[JobFact, str]:
    """One sentence for each job that was seen and dropped undone, while anything older rests on that."""
    seen = [(job, list(_resting(facts, job)) or list(_ticked_before(facts, job))) for job in facts.jobs if job.given_up]
    return {job: _dropped_words(job, resting) for job, resting in seen if resting}


def _resting(facts: Facts, job: JobFact) -> Iterator[str]:
    systems = SAFETY_SYSTEMS.intersection(job.systems) or SAFETY_SYSTEMS
    spoilt = voided_by(pulled_kinds(systems))
    for joint in facts.joints:
        if joint.state == STANDS and _before(joint.since, job) and not systems.isdisjoint(joint.systems):
            yield joint.name
    for reading in facts.readings:
        if reading.state == STANDS and _before(reading.since, job) and (reading.follows or reading.slug) in spoilt:
            yield reading.label


def _ticked_before(facts: Facts, job: JobFact) -> Iterator[str]:
    systems = SAFETY_SYSTEMS.intersection(job.systems) or SAFETY_SYSTEMS
    for check in facts.checks:
        if check.state == STANDS and _before(check.since, job) and not systems.isdisjoint(check.systems):
            yield check.name


def _before(since: datetime | None, job: JobFact) -> bool:
    return since is not None and job.ended is not None and since <= job.ended


def _words(job: JobFact, resting: list[str]) -> str:
    why = job.nothing_because.rstrip(".")
    return f"{job.called} is said to have opened nothing: {why}. {_older(resting)}"


def _dropped_words(job: JobFact, resting: list[str]) -> str:
    why, who = job.dropped_because.rstrip("."), f" ({job.dropped_by})" if job.dropped_by else ""
    return f"{job.called} was dropped without being done: {why}{who}. {_older(resting)}"


def _older(resting: list[str]) -> str:
    named = resting if len(resting) <= NAMED else [*resting[: NAMED - 1], f"{len(resting) - NAMED + 1} more"]
    return f"Older than that: {listed_in_words(named)}."
