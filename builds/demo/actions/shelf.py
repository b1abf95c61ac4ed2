"""The demo garage's shelf, from builds/demo/shelf.toml: places, parts, robbed cars, wants."""

from datetime import timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.needs.actions import needs
from builds.shelf.actions import shelf
from builds.work.models.job import Job
from garage.engine.money import parse_money
from parts.actions import parts
from parts.actions.places import car_place
from parts.engine.fit import stored, wish
from parts.models import Part, Place

RECEIVED = timedelta(days=60)
FITTED = timedelta(days=40)
ASKED = timedelta(hours=17)


def fit_of(row: dict[str, Any]) -> list[dict[str, str]]:
    return [stored(each) for each in wish(row.get("fits", "")).wants]


class DemoShelf(DemoRoom):
    """One filling of a garage's shelf; cars and people by name."""

    file = "shelf.toml"

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places: dict[str, Place] = {}
        self.parts: dict[str, Part] = {}

    def fill(self) -> None:
        for row in self.data["places"]:
            self.places[row["name"]] = parts.add_place(
                self.garage, kind=row["kind"], name=row["name"], walk_order=row["walk"]
            )
        for row in self.data["parts"]:
            self.part(row)
        for row in self.data["pulls"]:
            self.pull(row)
        for row in self.data["wants"]:
            needs.add(
                self.job(row),
                at=self.at - ASKED,
                what=row["part"],
                part=self.parts[row["part"]],
                quantity=row["amount"],
                fit=fit_of(row),
            )

    def part(self, row: dict[str, Any]) -> None:
        part = parts.add(
            self.garage,
            at=self.at - RECEIVED,
            name=row["name"],
            number=row.get("number", ""),
            systems=row.get("systems", []),
            interfaces=fit_of(row),
            single=row.get("single", False),
            one_use=row.get("one_use", False),
            unit=row.get("unit", Part.Unit.PIECE),
            condition=row.get("condition", Part.Condition.NEW),
            provenance=row.get("from", ""),
            supplier=row.get("supplier", ""),
            cost_minor=parse_money(row["cost"]) if "cost" in row else None,
            low_level=row.get("low"),
        )
        self.parts[row["name"]] = part
        first = next(iter(self.places.values()))
        place = self.places[row["in"]] if "in" in row else first
        with_someone = place.kind == Place.Kind.SOMEONE
        self.carry(part, "receive", RECEIVED, row.get("amount", 1),
                   target=first if with_someone else place)  # fmt: skip
        if with_someone:
            self.carry(part, "lend", FITTED, source=first, someone=place.name)
        if "on" in row:
            self.carry(part, "fit", FITTED, source=first, car=self.cars[row["on"]])

    def carry(self, part: Part, verb: str, ago: timedelta, quantity: int = 1, by: str = "", **ends: Any) -> None:
        who = self.members[by] if by else self.by
        shelf.carry_out(part, verb, quantity=quantity, by=who, at=self.at - ago, **ends)

    def pull(self, row: dict[str, Any]) -> None:
        part = self.parts[row["part"]]
        donor = next(each["on"] for each in self.data["parts"] if each["name"] == row["part"])
        self.carry(part, "pull", timedelta(hours=row["ago"]), by=row["by"],
                   source=car_place(self.cars[donor]), job=self.job(row))  # fmt: skip

    def job(self, row: dict[str, Any]) -> Job:
        return Job.objects.on(self.cars[row["car"]]).get(title=row["job"])
