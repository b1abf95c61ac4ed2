"""Parts and places for tests."""

import factory
from factory.django import DjangoModelFactory as Rows

from parts.actions.places import new_code
from parts.models import Part, Place
from tests.factories import NOW, GarageFactory


class PartFactory(Rows):
    class Meta:
        model = Part

    garage = factory.SubFactory(GarageFactory)
    code = factory.LazyFunction(new_code)
    name = factory.Sequence(lambda n: f"Part {n}")
    condition = "new"
    made_at = NOW


class PlaceFactory(Rows):
    class Meta:
        model = Place

    garage = factory.SubFactory(GarageFactory)
    code = factory.LazyFunction(new_code)
    kind = "shelf"
    name = factory.Sequence(lambda n: f"Shelf {n}")
