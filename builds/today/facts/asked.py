"""What a list or a sheet of work is asked for."""

from dataclasses import dataclass

from builds.work.models.job import Job
from garage.models import Event, Membership


@dataclass(frozen=True)
class Asked:
    """A job, the evening of a person, the cars of an event; the whole evening for none of them."""

    job: Job | None = None
    person: Membership | None = None
    event: Event | None = None
