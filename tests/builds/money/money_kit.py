"""A bench to add costs up by hand on: two cars, a shelf, parts bought for known prices."""

from builds.money.facts import load_money
from builds.shelf.actions import shelf
from garage.models import Garage
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


class Bench:
    """Heron and Badger, a shelf, and parts bought for known prices."""

    def __init__(self, cast):
        self.cast = cast
        self.heron = VehicleFactory(garage=cast.garage, name="Heron")
        self.badger = VehicleFactory(garage=cast.garage, name="Badger")
        self.shelf = PlaceFactory(garage=cast.garage)
        self.job = self.work(self.heron, "Front end")
        self.nut = self.bought("Hub nut", 650, 10)
        self.hub = self.bought("Front hub", 8000, 2, condition="good")
        self.clip = self.bought("Hose clip", None, 10)

    def work(self, car, title):
        return JobFactory(vehicle=car, title=title, made_by=self.cast.owner)

    def bought(self, name, each, many, condition="new"):
        part = PartFactory(garage=self.cast.garage, name=name, cost_minor=each, condition=condition)
        self.move(part, "receive", many, target=self.shelf)
        return part

    def move(self, part, verb, quantity, **more):
        return shelf.carry_out(part, verb, quantity=quantity, by=self.cast.owner, at=NOW, **more)

    def fit(self, part, quantity, car=None, job=None):
        return self.move(part, "fit", quantity, source=self.shelf, car=car or self.heron, job=job)

    def money(self, at=NOW):
        return load_money(Garage.objects.get(pk=self.cast.garage.pk), at)

    def cost(self, thing, of="car"):
        cost = getattr(self.money(), f"of_{of}")(thing)
        return cost.minor, cost.unpriced
