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

    def __str__(self) -> str:
        if self.person:
            return f"{self.person.name}, tonight"
        return str(self.job or self.event or "tonight")

    @property
    def query(self) -> str:
        """What asks for the same again, behind an address."""
        asked = {"job": self.job, "person": self.person, "event": self.event}
        return "".join(f"?{name}={thing.pk}" for name, thing in asked.items() if thing)
