"""The demo garage's readings, from builds/demo/readings.toml: some stand, a toe is void."""

from datetime import datetime, timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput, Typed
from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.fields import CHECK, FAIL, FIGURE, PASS, Field
from builds.readings.engine.figures import parse_figure, parse_tolerance
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
    """One filling of a garage's readings; cars and people by name."""

    file = "readings.toml"

    def fill(self) -> None:
        for row in self.data["work"]:
            self.work(row)
        for row in self.data["readings"]:
            self.reading(row)
        for row in self.data["targets"]:
            self.target(row)
        for name, keys in self.data["required"].items():
            readings.choose_required(self.cars[name], keys, by=self.by, at=self.at)

    def ago(self, row: dict[str, Any]) -> datetime:
        return self.at - timedelta(days=row.get("days", 0), hours=row.get("hours", 0))

    def work(self, row: dict[str, Any]) -> None:
        ended, by = self.ago(row), self.members[row["by"]]
        job = jobs.add(
            self.cars[row["car"]],
            by=self.by,
            at=ended - WRITTEN_BEFORE,
            title=row["title"],
            work=(45, 90, 150),
            systems=row["systems"],
            kinds=row["kinds"],
        )
        steps.start(job, by=by, at=ended - timedelta(hours=row["took"]))
        steps.finish(job, by=by, at=ended)
        steps.sign(job, by=self.members[row["signed"]], at=ended + SIGNED_AFTER)

    def reading(self, row: dict[str, Any]) -> None:
        kind = kind_of(self.garage, row["kind"])
        assert kind is not None, row["kind"]
        values = {
            field.slug: self.typed(field, row["values"][field.slug])
            for field in kind.fields
            if field.slug in row["values"]
        }
        told = {"instrument": row.get("instrument", "")}
        if "floor" in conditions_of(kind.key):
            told |= self.loaded()
        if "bars" not in conditions_of(kind.key):
            told.pop("bars", None)
        readings.take(
            self.cars[row["car"]],
            kind,
            values,
            by=self.members[row["by"]],
            at=self.ago(row),
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

    def target(self, row: dict[str, Any]) -> None:
        kind = kind_of(self.garage, row["kind"])
        assert kind is not None, row["kind"]
        aims = {}
        for field in kind.fields:
            if field.slug in row["aims"]:
                typed, off = row["aims"][field.slug]
                amount = parse_figure(field, typed, SYSTEM)
                tolerance = parse_tolerance(field, off, SYSTEM)
                aims[field.slug] = TargetInput(amount, tolerance, typed, off, field.unit(SYSTEM))
        readings.set_targets(self.cars[row["car"]], kind, aims)
