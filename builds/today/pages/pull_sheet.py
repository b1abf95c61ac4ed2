"""The pull list in words, for paper."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.today.facts.asked import Asked
from builds.today.pages.pull_list import load_pull_list
from builds.verdict.pages import SheetHead, head_of
from garage.models import Garage


@dataclass(frozen=True)
class PullTick:
    """What to fetch, and for what."""

    what: str
    note: str


@dataclass(frozen=True)
class PullSheet:
    """`places` in walking order, each with its code; `missing` no shelf has whole."""

    head: SheetHead
    title: str
    places: tuple[tuple[str, tuple[PullTick, ...]], ...]
    missing: tuple[PullTick, ...]


def pull_sheet_rows(garage: Garage, at: datetime, asked: Asked) -> PullSheet:
    pulls = load_pull_list(garage, at, asked)
    path = f"{reverse('pull_list')}{pulls.query}"
    return PullSheet(
        head_of(garage, at, pulls.cars, path),
        f"Pull for {pulls.asked}",
        tuple(
            (
                f"{place}, {place.get_kind_display()}",
                tuple(
                    PullTick(f"{line.words} of {line.part}", f"for “{line.job}”, {line.job.vehicle}") for line in lines
                ),
            )
            for place, lines in pulls.places
        ),
        tuple(PullTick(words, f"for “{job}”, {job.vehicle}") for job, words in pulls.missing),
    )
