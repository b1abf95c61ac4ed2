"""What the demo garage spent and may spend, from builds/demo/money.toml."""

import tomllib
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

from builds.money.actions import set_budget
from builds.shelf.actions import shelf
from garage.engine.money import parse_money
from garage.models import Event, Garage, Membership, Vehicle
from parts.models import Balance

FILE = Path(__file__).parents[1] / "money.toml"
FITTED = timedelta(days=30)


def fill(garage: Garage, cars: Mapping[str, Vehicle], *, by: Membership, at: datetime) -> None:
    data = tomllib.loads(FILE.read_text(encoding="utf-8"))
    held = Balance.objects.filter(part__garage=garage, outside=False, quantity__gt=0)
    for row in data["fitted"]:
        spot = held.select_related("part", "place").get(part__name=row["part"])
        shelf.carry_out(
            spot.part, "fit", quantity=row["amount"], source=spot.place, car=cars[row["car"]],
            by=by, at=at - FITTED,
        )  # fmt: skip
    events = {event.name: event for event in Event.objects.in_garage(garage)}
    for row in data["budgets"]:
        thing = cars[row["car"]] if "car" in row else events[row["event"]]
        set_budget(thing, parse_money(row["most"]))
