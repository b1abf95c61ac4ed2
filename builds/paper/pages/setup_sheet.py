"""The setup sheet with its head: a car's readings, and where the code leads."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.readings.pages.setup import SetupKind, setup_sheet
from builds.sums.pages.kept import KeptRow, kept_rows
from builds.verdict.pages import SheetHead, head_of
from garage.models import Vehicle


@dataclass(frozen=True)
class SetupRows:
    head: SheetHead
    car: str
    what: str
    kinds: tuple[SetupKind, ...]
    estimate: str
    sums: tuple[KeptRow, ...]


def setup_sheet_rows(vehicle: Vehicle, at: datetime) -> SetupRows:
    setup = setup_sheet(vehicle, at)
    return SetupRows(
        head_of(vehicle.garage, at, [vehicle], reverse("reading_list", args=[vehicle.pk])),
        vehicle.name,
        vehicle.what,
        setup.kinds,
        setup.estimate,
        tuple(kept_rows(vehicle, at)),
    )
