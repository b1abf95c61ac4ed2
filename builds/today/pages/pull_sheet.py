"""The pull list in words, for paper."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.needs.facts.asked import Asked
from builds.today.facts.pull_list import load_pull_list
from builds.verdict.pages import SheetHead, head_of
from garage.models import Garage


@dataclass(frozen=True)
class PullRow:
    what: str
    note: str


@dataclass(frozen=True)
class PullSheet:
    """`places` in walking order, each with its code; `missing` no shelf has whole."""

    head: SheetHead
    title: str
    places: tuple[tuple[str, tuple[PullRow, ...]], ...]
    missing: tuple[PullRow, ...]


def pull_sheet_rows(garage: Garage, at: datetime, asked: Asked) -> PullSheet:
    found = load_pull_list(garage, at, asked)
    path = f"{reverse('pull_list')}{asked.query}"
    return PullSheet(
        head_of(garage, at, found.cars, path),
        f"Pull for {asked}",
        tuple(
            (
                f"{place}, {place.get_kind_display()}",
                tuple(PullRow(f"{row.words} of {row.part}", f"for {row.job}, {row.job.vehicle}") for row in rows),
            )
            for place, rows in found.places
        ),
        tuple(PullRow(words, f"for {job}, {job.vehicle}") for job, words in found.missing),
    )
