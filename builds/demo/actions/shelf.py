"""The demo garage's shelf, from builds/demo/shelf.toml: places, parts, robbed cars, wants."""

from datetime import timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.needs.actions import needs
from builds.shelf.actions import shelf
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.engine.money import parse_money
from parts.actions import parts
from parts.actions.places import car_place
from parts.engine.fit import stored, wish
from parts.models import Part, Place

RECEIVED = timedelta(days=60)
FITTED = timedelta(days=40)
ASKED = timedelta(hours=17)


def fit_of(given: dict[str, Any]) -> list[dict[str, str]]:
    return [stored(want) for want in wish(given.get("fits", "")).wants]


class DemoShelf(DemoRoom):
    file = "shelf.toml"

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places: dict[str, Place] = {}
        self.parts: dict[str, Part] = {}

    def fill(self) -> None:
        for given in self.data["places"]:
            self.places[given["name"]] = parts.add_place(
                self.garage, kind=given["kind"], name=given["name"], walk_order=given["walk"]
            )
        for given in self.data["parts"]:
            self.part(given)
        for given in self.data["pulls"]:
            self.pull(given)
        for given in self.data["wants"]:
            self.want(given)

    def want(self, given: dict[str, Any]) -> None:
        """What its recipe asked for already takes the part that answers it."""
        job, part = self.job(given), self.parts[given["part"]]
        told = {"what": given["part"], "part": part, "quantity": given["amount"], "fit": fit_of(given)}
        told["lead_days"] = given.get("takes")
        if "answers" in given:
            needs.change(Need.objects.of(job).get(what=given["answers"]), by=self.by, **told)
        else:
            needs.add(job, at=self.at - ASKED, **told)

    def part(self, given: dict[str, Any]) -> None:
        part = parts.add(
            self.garage,
            at=self.at - RECEIVED,
            name=given["name"],
            number=given.get("number", ""),
            systems=given.get("systems", []),
            interfaces=fit_of(given),
            single=given.get("single", False),
            one_use=given.get("one_use", False),
            unit=given.get("unit", Part.Unit.PIECE),
            condition=given.get("condition", Part.Condition.NEW),
            provenance=given.get("from", ""),
            supplier=given.get("supplier", ""),
            cost_minor=parse_money(given["cost"]) if "cost" in given else None,
            low_level=given.get("low"),
        )
        self.parts[given["name"]] = part
        first = next(iter(self.places.values()))
        place = self.places[given["in"]] if "in" in given else first
        with_someone = place.kind == Place.Kind.SOMEONE
        self.carry(part, "receive", RECEIVED, given.get("amount", 1),
                   target=first if with_someone else place)  # fmt: skip
        if with_someone:
            self.carry(part, "lend", FITTED, source=first, someone=place.name)
        if "on" in given:
            self.carry(part, "fit", FITTED, source=first, car=self.cars[given["on"]], all_along=True)

    def carry(self, part: Part, verb: str, ago: timedelta, quantity: int = 1, by: str = "", **ends: Any) -> None:
        who = self.members[by] if by else self.by
        shelf.carry_out(part, verb, quantity=quantity, by=who, at=self.at - ago, **ends)

    def pull(self, given: dict[str, Any]) -> None:
        part = self.parts[given["part"]]
        donor = next(other["on"] for other in self.data["parts"] if other["name"] == given["part"])
        self.carry(part, "pull", timedelta(hours=given["ago"]), by=given["by"],
                   source=car_place(self.cars[donor]), job=self.job(given))  # fmt: skip

    def job(self, given: dict[str, Any]) -> Job:
        return Job.objects.on(self.cars[given["car"]]).get(title=given["job"])
