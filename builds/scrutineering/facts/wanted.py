"""What a car's list is made from: its organiser's own lines, the general ones, and what the car has."""

from collections.abc import Iterable

from builds.scrutineering.engine.check_list import ListItem, load_items, own_items
from builds.scrutineering.engine.scrutineering import items_for
from builds.scrutineering.models.check import CarHas, OrganiserList
from garage.models import Garage, Vehicle


class ListSources:
    """Of cars of a garage; two queries, however many cars."""

    def __init__(self, garage: Garage, cars: Iterable[Vehicle]) -> None:
        self._own = {own.name.casefold(): own for own in OrganiserList.objects.in_garage(garage)}
        self._tags = dict(CarHas.objects.filter(vehicle__in=list(cars)).values_list("vehicle_id", "tags"))

    def organiser(self, name: str) -> str:
        """As the garage keeps his list, capitals aside; empty where it keeps none."""
        own = self._own.get(name.casefold())
        return own.name if own else ""

    def items(self, car: int, organiser: str) -> tuple[ListItem, ...]:
        """The items that the list of a car (pk) gets at an event of that organiser."""
        own = self._own.get(organiser.casefold())
        shipped = load_items() if own is None or own.with_shipped else ()
        return items_for(shipped, own_items(own.text, own.name) if own else (), self._tags.get(car))
