"""What is owed, in words, for paper."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.shelf.pages.owed import OwedLine, by_car, owed_lines
from builds.verdict.pages import SheetHead, head_of
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class OwedSheet:
    """By car, the one that has waited longest first: what it is owed, and where that is now."""

    head: SheetHead
    cars: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


def owed_sheet_rows(garage: Garage, at: datetime, vehicle: Vehicle | None = None) -> OwedSheet:
    """All of it, or what one car is owed."""
    cars = by_car(owed_lines(garage, at, vehicle))
    return OwedSheet(
        head_of(garage, at, [car for car, _ in cars], reverse("owed_list")),
        tuple((f"{car} is owed", tuple(map(_words, lines))) for car, lines in cars),
    )


def _words(line: OwedLine) -> tuple[str, str]:
    many = f"{line.amount} of " if line.amount else ""
    went = f", for “{line.went_to}” ({line.went_to.vehicle})" if line.went_to else ""
    said = f"{line.job.get_rank_display()}. Since {line.since} ({line.age}), now {line.where}{went}."
    return f"{many}{line.part}", said
