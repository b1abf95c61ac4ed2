"""Whether hands have been on a job, whatever became of it since."""

from builds.work.models.job import Job
from builds.work.models.owed import Owed
from builds.work.models.span import Span
from builds.work.models.states import State


def was_begun(job: Job) -> bool:
    """A job that was opened again or dropped was begun all the same; hands took off what a car is owed."""
    begun = job.state not in (State.OPEN, State.DROPPED) or Span.objects.filter(job=job).by_hands().exists()
    return begun or is_off(job)


def is_off(job: Job) -> bool:
    """Whether it gives back what came off its car and is not back on it."""
    return Owed.objects.off().filter(job=job).exists()
