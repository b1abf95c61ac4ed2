"""Work that a second person has still to look at, and whose hands were on it."""

from collections.abc import Iterable
from dataclasses import dataclass

from builds.readings.engine.kind_line import KindLine
from builds.readings.facts.amiss import amiss_in
from builds.steps.engine.looks import Eyes
from builds.steps.facts.looks import eyes_of, hands_known, waiting_for_look
from builds.work.engine.open_work import Work
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Garage, Membership


@dataclass(frozen=True)
class WorkToSign:
    """Jobs that stopped at their hold points, and finished ones; `people` are all hands.

    `workers` by job (pk) are the members (pk) whose hands were on what is looked at, `amiss` by job (pk)
    what was read out of order at its end.
    """

    stopped: list[Job]
    done: list[Job]
    workers: dict[int, frozenset[int]]
    people: list[Eyes]
    amiss: dict[int, tuple[KindLine, ...]]


def work_to_sign(garage: Garage, work: Work, members: Iterable[Membership]) -> WorkToSign:
    """`members` are those still here; as many queries for one job as for fifty."""
    stopped = [work.jobs[pk] for pk in work.order if at_hold_point(work.jobs[pk])]
    done = Job.objects.filter(pk__in=waiting_for_look(garage), vehicle__gone_at=None)
    rows = done.select_related("vehicle", "skill").order_by("pk")
    people = [eyes for eyes in map(eyes_of, members) if eyes.here]
    waiting = [*stopped, *rows]
    return WorkToSign(stopped, list(rows), hands_known(garage, waiting), people, amiss_in(garage, waiting))


def at_hold_point(job: Job) -> bool:
    return job.state == State.HELD and job.finished_at is not None
