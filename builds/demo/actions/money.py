"""What the demo garage spent and may spend, from builds/demo/money.toml."""

from datetime import timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.money.actions import set_budget
from builds.shelf.actions import shelf
from garage.engine.money import parse_money
from garage.models import Event
from parts.models import Balance

FITTED = timedelta(days=30)


class DemoMoney(DemoRoom):
    file = "money.toml"

    def fill(self) -> None:
        for given in self.data["fitted"]:
            self.fit(given)
        events = {event.name: event for event in Event.objects.in_garage(self.garage)}
        for given in self.data["budgets"]:
            thing = self.cars[given["car"]] if "car" in given else events[given["event"]]
            set_budget(thing, parse_money(given["most"]))

    def fit(self, given: dict[str, Any]) -> None:
        held = Balance.objects.filter(part__garage=self.garage, outside=False, quantity__gt=0)
        spot = held.select_related("part", "place").get(part__name=given["part"])
        shelf.carry_out(
            spot.part,
            "fit",
            quantity=given["amount"],
            source=spot.place,
            car=self.cars[given["car"]],
            by=self.by,
            at=self.at - FITTED,
            all_along=True,
        )
