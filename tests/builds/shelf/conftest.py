"""What tests of the shelf share: two cars, two places, loose nuts and one pair of hubs."""

import pytest

from parts.actions import stock
from parts.actions.places import car_place, house_place
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def shop(cast):
    class Shop:
        garage = cast.garage
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        on_badger = car_place(badger)
        shelf = PlaceFactory(garage=cast.garage, name="Shelf A")
        bin = PlaceFactory(garage=cast.garage, name="Bin 1", kind="bin")
        nuts = PartFactory(garage=cast.garage, name="Hub nuts")
        hubs = PartFactory(garage=cast.garage, name="Front hubs", single=True, systems=["wheels"], condition="good")

        @staticmethod
        def put(part, place, quantity=1):
            """As it lies when the test begins: received, and fitted if the place is a car."""
            supplier, by = house_place(cast.garage, "supplier"), {"by": cast.owner, "at": NOW}
            stock.move(part, "receive", quantity, supplier, Shop.shelf, **by)
            if place != Shop.shelf:
                verb = "fit" if place.kind == "car" else "put"
                stock.move(part, verb, quantity, Shop.shelf, place, **by)

    return Shop
