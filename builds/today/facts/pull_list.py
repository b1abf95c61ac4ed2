"""What is to be pulled from the shelf, by place in the order of the way round."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from builds.needs.facts.asked import Asked
from builds.needs.facts.wants import wants_of
from builds.needs.pages.words import standing_words
from builds.today.facts.evening import turns_of
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from garage.models import Garage, Vehicle
from parts.engine.words import amount_words
from parts.models import Part, Place


@dataclass(frozen=True)
class PullRow:
    """So much of a part for a job, from one place."""

    part: Part
    quantity: int
    words: str
    job: Job


@dataclass(frozen=True)
class PullList:
    """`missing` are wants of the same jobs that no shelf has whole, in words; `cars` have them."""

    places: tuple[tuple[Place, tuple[PullRow, ...]], ...]
    missing: tuple[tuple[Job, str], ...]
    cars: tuple[Vehicle, ...]


def load_pull_list(garage: Garage, at: datetime, asked: Asked) -> PullList:
    """As many queries for one want as for fifty."""
    work = load_work(garage, at)
    chosen = {turn.job for turn in turns_of(garage, work, asked)}
    wants = wants_of(work)
    found: dict[int, list[PullRow]] = defaultdict(list)
    missing = []
    for need in wants.needs:
        if need.job_id not in chosen:
            continue
        stands = wants.standing[need.pk]
        for pick in stands.picks:
            words = amount_words(need.part.unit, pick.quantity)
            found[pick.place].append(PullRow(need.part, pick.quantity, words, need.job))
        if stands.state != "shelf":
            missing.append((need.job, f"{need}: {standing_words(need, stands, work.times.shop.today)}"))
    walk = sorted((wants.places[pk] for pk in found), key=lambda place: (place.walk_order, place.pk))
    cars = {work.jobs[pk].vehicle_id: work.jobs[pk].vehicle for pk in chosen}
    return PullList(
        tuple((place, tuple(found[place.pk])) for place in walk),
        tuple(missing),
        tuple(cars[pk] for pk in sorted(cars)),
    )
