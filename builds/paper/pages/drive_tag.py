"""What the tag on the wheel says: why this car is not to be driven."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.verdict.facts.verdict import verdict_of
from builds.verdict.pages import SheetHead, head_with
from garage.models import Vehicle


@dataclass(frozen=True)
class DriveTag:
    """`reasons` are those that forbid driving, with what clears each; nothing else is on a tag."""

    head: SheetHead
    car: str
    what: str
    reasons: tuple[tuple[str, str], ...]


def drive_tag_rows(vehicle: Vehicle, at: datetime) -> DriveTag:
    verdict, path = verdict_of(vehicle, at), reverse("vehicle_page", args=[vehicle.pk])
    return DriveTag(
        head_with(vehicle.garage, at, {vehicle.name: verdict}, path),
        vehicle.name,
        vehicle.what,
        tuple((reason.sentence, reason.clears) for reason in verdict.do_not_drive_reasons),
    )
