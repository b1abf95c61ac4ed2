"""Whether hands have been on a job, whatever became of it since."""

from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import State


def was_begun(job: Job) -> bool:
    """A job that was opened again or dropped was begun all the same."""
    return job.state not in (State.OPEN, State.DROPPED) or Span.objects.filter(job=job).by_hands().exists()
