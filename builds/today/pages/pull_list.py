"""What is to be pulled from the shelf, by place in the order of the way round."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from builds.needs.facts.wants import WantStanding
from builds.needs.pages.by_day import by_day
from builds.needs.pages.words import standing_words
from builds.today.facts.asked import Asked
from builds.today.facts.pulls import Pulls, pulls_for
from builds.today.pages.asked import asked_query, asked_words
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.models import Garage, Vehicle
from parts.engine.words import amount_words
from parts.models import Part, Place


@dataclass(frozen=True)
class PullLine:
    """So much of a part for a job, from one place."""

    part: Part
    quantity: int
    words: str
    job: Job


@dataclass(frozen=True)
class PullList:
    """`missing` are wants of the same jobs that no shelf has whole, in words; `cars` have them.

    `asked` says what it was asked for, `query` asks for the same again behind an address.
    """

    asked: str
    query: str
    places: tuple[tuple[Place, tuple[PullLine, ...]], ...]
    missing: tuple[tuple[Job, str], ...]
    cars: tuple[Vehicle, ...]


def load_pull_list(garage: Garage, at: datetime, asked: Asked) -> PullList:
    wanted = pulls_for(garage, at, asked)
    return PullList(
        asked_words(asked),
        asked_query(asked),
        _by_place(wanted),
        tuple((need.job, _missing(need, stands, wanted)) for need, stands in wanted.missing),
        wanted.cars,
    )


def _missing(need: Need, stands: WantStanding, wanted: Pulls) -> str:
    """`front hub: to find, must be here by Thu 4 Mar`."""
    by = by_day(need, wanted.last_days.get(need.job_id), wanted.today)
    said = [standing_words(need, stands, wanted.today), by.words if by else ""]
    return f"{need}: {', '.join(filter(None, said))}"


def _by_place(wanted: Pulls) -> tuple[tuple[Place, tuple[PullLine, ...]], ...]:
    lines: dict[Place, list[PullLine]] = defaultdict(list)
    for pull in wanted.pulls:
        need, words = pull.need, amount_words(pull.need.part.unit, pull.quantity)
        lines[pull.place].append(PullLine(need.part, pull.quantity, words, need.job))
    walk = sorted(lines, key=lambda place: (place.walk_order, place.pk))
    return tuple((place, tuple(lines[place])) for place in walk)
