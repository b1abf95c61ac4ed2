"""How a driver sits in the other cars, from which the form of this one may start."""

from dataclasses import dataclass

from builds.readings.engine.fields import OF_DRIVER
from builds.readings.models.reading import Reading
from garage.clock import dated_words
from garage.models import Membership, Vehicle


@dataclass(frozen=True)
class OtherCar:
    """The newest reading (pk, kind) of another car, and when it was taken."""

    pk: int
    key: str
    car: str
    when: str


def on_other_cars(vehicle: Vehicle, me: Membership) -> list[OtherCar]:
    """The newest of each other car; one query."""
    newest: dict[tuple[int, str], Reading] = {}
    taken = Reading.objects.visible_to(me).standing().filter(kind__in=OF_DRIVER, own=None).exclude(vehicle=vehicle)
    for reading in taken.newest().select_related("vehicle"):
        newest.setdefault((reading.vehicle_id, reading.kind), reading)
    return [OtherCar(one.pk, one.kind, one.vehicle.name, dated_words(one.at)) for one in newest.values()]
