"""In which nights of events a job could be done in the paddock, and in which it is."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.pages.nights import night_words
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.models import Night


@dataclass(frozen=True)
class NightOffer:
    """`words` such as `Saltmarsh Hill Climb, Sat 18:00 to 23:00, cars ready by Sun 08:30`.

    `is_then` for the one in which it is done.
    """

    pk: int
    words: str
    is_then: bool


def night_offers(job: Job, at: datetime) -> tuple[NightOffer, ...]:
    """Those ahead at events to which its car goes; one query, none for a job that is over."""
    if job.state not in OPEN_STATES:
        return ()
    rows = Night.objects.ahead(at).for_car(job.vehicle_id).select_related("event")
    return tuple(
        NightOffer(night.pk, f"{night.event}, {night_words(night, at)}", night.pk == job.night_id) for night in rows
    )
