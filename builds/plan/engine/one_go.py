"""Work that may be split and had better not be: in one go where some session is as long as it takes."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import combinations

from builds.planner.axis import clip, length, overlap
from builds.planner.fields import Windows
from builds.planner.problem import Job, Person, Station


def in_one_go(job: Job, people: Sequence[Person], stations: Sequence[Station], slots: int) -> Job:
    """The job, not to be split, where a session before it is due is long enough; as it is where none is.

    What somebody has in hand goes on as it is.
    """
    if job.crew is not None or job.pinned is not None:
        return job
    until = slots if job.due is None else job.due
    shut = [clip(one.windows, until) for one in stations if one.id in job.uses]
    for crew in _crews(job, people):
        hours = clip(job.windows, until)
        for windows in (*(clip(person.windows, until) for person in crew), *shut):
            hours = overlap(hours, windows)
        if any(length(_from(job.earliest, (session,))) >= job.work for session in hours):
            return replace(job, splits=False)
    return job


def _from(earliest: int, windows: Windows) -> Windows:
    return tuple((max(begin, earliest), end) for begin, end in windows if end > earliest)


def _crews(job: Job, people: Sequence[Person]) -> Iterable[tuple[Person, ...]]:
    hands = [person for person in people if job.vehicle is None or job.vehicle not in person.not_on]
    for crew in combinations(hands, job.hands):
        if job.skill is None or any(job.skill in person.skills for person in crew):
            yield crew
