"""In which nights of events a job could be done in the paddock, and in which it is."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.pages.nights import night_words
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.facts.entries import entries_ahead, nights_ahead
from garage.models import Garage


@dataclass(frozen=True)
class NightOffer:
    """`words` such as `Saltmarsh Hill Climb, Sat 18:00 to 23:00, cars ready by Sun 08:30`.

    `is_then` for the one in which it is done.
    """

    pk: int
    words: str
    is_then: bool


def night_offers(job: Job, garage: Garage, at: datetime) -> tuple[NightOffer, ...]:
    """Those ahead at events to which its car goes; none for a job that is over."""
    if job.state not in OPEN_STATES:
        return ()
    events = {entry.event_id for entry in entries_ahead(garage, at) if entry.vehicle_id == job.vehicle_id}
    return tuple(
        NightOffer(night.pk, f"{night.event}, {night_words(night, at)}", night.pk == job.night_id)
        for night in nights_ahead(garage, at)
        if night.event_id in events
    )
