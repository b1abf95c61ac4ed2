"""What the tag on the wheel says: why this car is not to be driven."""

from dataclasses import dataclass
from datetime import datetime

from django.core.signing import BadSignature, Signer
from django.urls import reverse

from builds.verdict.facts.verdict import verdict_of
from builds.verdict.pages import SheetHead, head_with
from garage.models import Vehicle

CODE = Signer(salt="drive tag")  # so that nobody asks for the tags of other cars by counting


@dataclass(frozen=True)
class DriveTag:
    """`reasons` are those that forbid driving, with what clears each; nothing else is on a tag."""

    head: SheetHead
    car: str
    what: str
    reasons: tuple[tuple[str, str], ...]


def drive_tag_rows(vehicle: Vehicle, at: datetime) -> DriveTag:
    verdict, path = verdict_of(vehicle, at), reverse("drive_tag_page", args=[CODE.sign(vehicle.pk)])
    return DriveTag(
        head_with(vehicle.garage, at, {vehicle.name: verdict}, path),
        vehicle.name,
        vehicle.what,
        tuple((reason.sentence, reason.clears) for reason in verdict.do_not_drive_reasons),
    )


def tagged_car(code: str) -> Vehicle | None:
    """The car of a tag's code, if there is one."""
    try:
        return Vehicle.objects.filter(pk=int(CODE.unsign(code)), gone_at=None).select_related("garage").first()
    except (BadSignature, ValueError):
        return None


def is_tagged(vehicle: Vehicle, at: datetime) -> bool:
    """Whether it is not to be driven now: a tag may hang on after its reason is gone."""
    return bool(verdict_of(vehicle, at).do_not_drive_reasons)
