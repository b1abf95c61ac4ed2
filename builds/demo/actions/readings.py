"""The demo garage's readings, from builds/demo/readings.toml: some stand, a toe is void."""

from datetime import datetime, timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput, Typed
from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.fields import CHECK, FAIL, FIGURE, PASS, Field
from builds.readings.engine.figures import parse_figure, parse_tolerance
from builds.readings.engine.limits import CHOSEN, OFF, SORTS
from builds.readings.facts.kinds import kind_of
from builds.steps.actions import jobs, steps
from garage.engine.units import UNITS, convert, parse_number

SYSTEM = "metric"
WRITTEN_BEFORE, SIGNED_AFTER = timedelta(hours=30), timedelta(minutes=20)
# What a reading on the level floor has beside it: the model's field, its unit there, and typed.
LOADED = {
    "fuel": ("fuel_ml", "ml", "L"),
    "front": ("front_pa", "Pa", "bar"),
    "rear": ("rear_pa", "Pa", "bar"),
}


class DemoReadings(DemoRoom):
    file = "readings.toml"

    def fill(self) -> None:
        for given in self.data["work"]:
            self.work(given)
        for given in self.data["readings"]:
            self.reading(given)
        for given in self.data["targets"]:
            self.target(given)
        for name, keys in self.data["required"].items():
            readings.choose_required(self.cars[name], keys, by=self.by, at=self.at)

    def ago(self, given: dict[str, Any]) -> datetime:
        return self.at - timedelta(days=given.get("days", 0), hours=given.get("hours", 0))

    def work(self, given: dict[str, Any]) -> None:
        ended, by = self.ago(given), self.members[given["by"]]
        job = jobs.add(
            self.cars[given["car"]],
            by=self.by,
            at=ended - WRITTEN_BEFORE,
            title=given["title"],
            work=(45, 90, 150),
            systems=given["systems"],
            kinds=given["kinds"],
        )
        steps.start(job, by=by, at=ended - timedelta(hours=given["took"]))
        steps.finish(job, by=by, at=ended)
        steps.sign(job, by=self.members[given["signed"]], at=ended + SIGNED_AFTER)

    def reading(self, given: dict[str, Any]) -> None:
        kind = kind_of(self.garage, given["kind"])
        assert kind is not None, given["kind"]
        values = {
            field.slug: self.typed(field, given["values"][field.slug])
            for field in kind.fields
            if field.slug in given["values"]
        }
        told = {"instrument": given.get("instrument", "")}
        if "floor" in conditions_of(kind.key):
            told |= self.loaded()
        if "bars" not in conditions_of(kind.key):
            told.pop("bars", None)
        readings.take(
            self.cars[given["car"]],
            kind,
            values,
            by=self.members[given["by"]],
            at=self.ago(given),
            **told,
        )

    def typed(self, field: Field, text: str) -> Typed:
        if field.type == FIGURE:
            return Typed(parse_figure(field, text, SYSTEM), text, field.unit(SYSTEM))
        if field.type == CHECK:
            return Typed(PASS if text == "passed" else FAIL, text)
        return Typed(None, text)

    def loaded(self) -> dict[str, Any]:
        """The conditions of every reading on the level floor."""
        given = dict(self.data["loaded"])
        for name, (field, stored, unit) in LOADED.items():
            amount = convert(parse_number(given.pop(name)), UNITS[unit], UNITS[stored])
            given[field] = round(amount)
        return given

    def target(self, given: dict[str, Any]) -> None:
        kind = kind_of(self.garage, given["kind"])
        assert kind is not None, given["kind"]
        mark = given.get("mark", CHOSEN)
        aims = {field.slug: self.limit(field, given["aims"], mark) for field in kind.fields if self.aimed(field, given)}
        readings.set_targets(self.cars[given["car"]], kind, aims)

    def aimed(self, field: Field, given: dict[str, Any]) -> bool:
        return field.slug in given["aims"] or "all" in given["aims"]

    def limit(self, field: Field, aims: dict[str, list[str]], mark: str) -> TargetInput:
        """`["between", "1,2", "3"]`, `["at least", "10"]`; of `all` where the field names none."""
        words, typed, *rest = aims.get(field.slug) or aims["all"]
        sort = next(sort for sort, said in SORTS.items() if said == words)
        second_typed = rest[0] if rest else ""
        parse = parse_tolerance if sort == OFF else parse_figure
        second = parse(field, second_typed, SYSTEM) if rest else None
        amount = parse_figure(field, typed, SYSTEM)
        return TargetInput(sort, amount, second, typed, second_typed, field.unit(SYSTEM), mark)
