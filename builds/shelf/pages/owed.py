"""What cars are owed: since when, what it went into, where it is now, and the way back."""

from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from builds.needs.pages.words import place_words
from builds.shelf.pages.tap import Tap, move_url
from builds.work.models.job import Job
from builds.work.models.owed import Owed
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.models import Garage, Vehicle
from parts.engine.ledger import AT_HAND
from parts.engine.words import amount_words
from parts.models import Balance, Part, Place


@dataclass(frozen=True)
class OwedLine:
    """`days` since it was taken; `where` it is now, in words; `taps` towards giving it back."""

    vehicle: Vehicle
    part: Part
    amount: str
    job: Job
    went_to: Job | None
    since: str
    days: int
    where: str
    taps: tuple[Tap, ...]

    @property
    def age(self) -> str:
        return {0: "today", 1: "one day"}.get(self.days, f"{self.days} days")


def owed_lines(garage: Garage, at: datetime, vehicle: Vehicle | None = None) -> list[OwedLine]:
    """Two queries; the oldest first."""
    rows = (
        Owed.objects.in_garage(garage).open().select_related("vehicle", "job", "move__part", "move__use__job__vehicle")
    )
    owed = list(rows.filter(vehicle=vehicle) if vehicle else rows)
    held = Balance.objects.by_part({debt.move.part_id for debt in owed})
    owed.sort(key=lambda debt: (debt.move.at, debt.pk))
    return [_line(debt, held[debt.move.part_id], at) for debt in owed]


def by_car(lines: list[OwedLine]) -> list[tuple[Vehicle, list[OwedLine]]]:
    """The car that has waited longest first."""
    cars: dict[int, tuple[Vehicle, list[OwedLine]]] = {}
    for line in lines:
        cars.setdefault(line.vehicle.pk, (line.vehicle, []))[1].append(line)
    return list(cars.values())


def _line(owed: Owed, held: list[Balance], at: datetime) -> OwedLine:
    move, car = owed.move, owed.vehicle
    use = getattr(move, "use", None)
    there = [balance.place for balance in held if balance.place.vehicle_id != car.pk]
    return OwedLine(
        car,
        move.part,
        amount_words(move.part.unit, move.quantity) if not move.part.single else "",
        owed.job,
        use.job if use else None,
        moment_words(move.at, zone(), at),
        (timezone.localtime(at).date() - timezone.localtime(move.at).date()).days,
        ", ".join(place_words(place) for place in there) or "nowhere that is known",
        tuple(tap for place in there if (tap := _tap(owed, place))),
    )


def _tap(owed: Owed, place: Place) -> Tap | None:
    """Fit it back from where it lies, or get it from where it is first."""
    part, quantity = owed.move.part_id, owed.move.quantity
    if place.kind in AT_HAND:
        url = move_url(part, "fit", source=place.pk, car=owed.vehicle_id, job=owed.job_id, quantity=quantity)
        return Tap(f"Fit it back from {place}", url)
    if place.kind == Place.Kind.CAR:
        return Tap(f"Pull it off {place}", move_url(part, "pull", source=place.pk))
    if place.kind in (Place.Kind.SOMEONE, Place.Kind.REPAIR):
        return Tap("Take it back", move_url(part, "return", source=place.pk))
    return None
