"""A car with a safety job and a plain one, and nuts on a shelf that are wanted for them."""

from parts.actions import stock
from parts.actions.places import house_place
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

FINE = [{"kind": "thread", "thread": "M12×1.25", "side": "internal"}]
INCH = [{"kind": "thread", "thread": "1/2-20 UNF", "side": "internal"}]


def make_bench(cast):
    class Bench:
        car = VehicleFactory(garage=cast.garage, name="Heron")
        safety = JobFactory(vehicle=car, title="Refit the arm", rank="safety", systems=["steering"])
        plain = JobFactory(vehicle=car, title="Fit the shelf", rank="wanted", systems=["body"])
        shelf = PlaceFactory(garage=cast.garage, name="Shelf A")

        @staticmethod
        def nut(interfaces=(), job=None, name="Nut", **more):
            """A nut on the shelf, wanted for the job with the fine thread."""
            part = PartFactory(garage=cast.garage, name=name, interfaces=list(interfaces), **more)
            stock.move(part, "receive", 4, house_place(cast.garage, "supplier"), Bench.shelf,
                       by=cast.owner, at=NOW)  # fmt: skip
            if job:
                NeedFactory(job=job, what="nut", part=part, fit=FINE)
            return part

        @staticmethod
        def fit(client, part, job="", **more):
            pk = job.pk if job else ""
            return client.press(f"/parts/{part.pk}/move/fit/", {
                "quantity": 1, "source": Bench.shelf.pk, "car": Bench.car.pk, "job": pk, **more,
            })  # fmt: skip

    return Bench
