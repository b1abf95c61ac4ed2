"""What goes on with a job's finish, as it is offered: ticked, or with a reason to be written first."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.needs.actions.fitting import reasons
from builds.needs.facts.at_hand import AtHand, at_hand
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions.refused import Refused
from garage.engine.words import listed_in_words
from parts.engine.words import amount_words


@dataclass(frozen=True)
class ToFit:
    """`words` such as `2 of Split pin, from Bin 4`; `asks` why it does not go on by itself, `url` where it does."""

    ready: AtHand
    words: str
    asks: str = ""
    url: str = ""


def parts_to_fit(job: Job, at: datetime) -> list[ToFit]:
    return [_line(ready, job) for ready in at_hand(job, at)]


def _line(ready: AtHand, job: Job) -> ToFit:
    part = ready.part
    many = f"{amount_words(part.unit, ready.quantity)} of " if ready.quantity > 1 or part.unit != "piece" else ""
    words = f"{many}{part}, from {listed_in_words(dict.fromkeys(str(place) for place, _ in ready.places))}"
    try:
        reasons(part, job, job.vehicle, why="", unknown_because="", fit_because="")
    except Refused as refused:
        url = f"{reverse('part_move', args=[part.pk, 'fit'])}?job={job.pk}&car={job.vehicle_id}"
        return ToFit(ready, words, str(refused), url)
    return ToFit(ready, words)


def not_here(job: Job, to_fit: Iterable[ToFit]) -> list[Need]:
    """What nobody has said is here, and no shelf has: it may have gone on straight from the box."""
    ready = {line.ready.need.pk for line in to_fit}
    return [need for need in Need.objects.of(job).filter(got_at=None).order_by("pk") if need.pk not in ready]
