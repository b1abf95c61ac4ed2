"""What is to be bought and what is on its way, in words, for paper."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.shelf.pages.want_page import BuyRow, WantRow, load_want_page
from builds.verdict.pages import SheetHead, head_of
from garage.models import Garage

BEFORE_IT_IS_HERE = ("car", "ordered")


@dataclass(frozen=True)
class WantSheet:
    """What to buy by supplier, and what else has still to come by how it stands: each with its note."""

    head: SheetHead
    suppliers: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    coming: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


def want_sheet_rows(garage: Garage, at: datetime) -> WantSheet:
    """Without prices: paper lies about."""
    view = load_want_page(garage, at)
    cars = {want.job.vehicle_id: want.job.vehicle for _, _, wants in view.groups for want in wants}
    return WantSheet(
        head_of(garage, at, [cars[pk] for pk in sorted(cars)], reverse("want_list")),
        tuple(
            (f"To buy from {supplier.name or 'anywhere'}", tuple(map(_to_buy, supplier.rows)))
            for supplier in view.suppliers
        ),
        tuple((label, tuple(map(to_come, rows))) for state, label, rows in view.groups if state in BEFORE_IT_IS_HERE),
    )


def _to_buy(row: BuyRow) -> tuple[str, str]:
    return row.what, _sentences(row.by.words if row.by else "", row.why)


def to_come(row: WantRow) -> tuple[str, str]:
    """What it is, and how it stands, by when, for which job."""
    line = row.line
    return line.what, _sentences(line.word, line.by.words if line.by else "", f"for “{row.job}” ({row.job.vehicle})")


def _sentences(*said: str) -> str:
    return " ".join(f"{words[0].upper()}{words[1:]}." for words in said if words)
