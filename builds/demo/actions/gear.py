"""The demo garage's gear, from builds/demo/gear.toml: one harness has run out."""

from datetime import date, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from builds.demo.actions.room import DemoRoom
from garage.actions import gear
from garage.engine.gear import STANDARDS, DateRule
from garage.models import Event

WRITTEN = timedelta(days=30)


class DemoGear(DemoRoom):
    """One filling; cars and people by name."""

    file = "gear.toml"

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = self.at.astimezone(ZoneInfo(self.garage.time_zone)).date()

    def fill(self) -> None:
        written = self.at - WRITTEN
        for car, kinds in self.data["needed"].items():
            gear.need(self.cars[car], kinds=kinds, by=self.by, at=written)
        for name, rows in self.data["rules"].items():
            event = Event.objects.in_garage(self.garage).get(name=name)
            gear.set_rules(event, {kind: DateRule(way, years) for kind, (way, years) in rows.items()})
        for row in self.data["gear"]:
            standard = STANDARDS.get(row.get("standard", ""))
            printed, precision = self._printed(row)
            gear.add(
                self.garage,
                at=written,
                vehicle=self.cars.get(row.get("car", "")),
                member=self.members.get(row.get("person", "")),
                kind=row["kind"],
                name=row["name"],
                standard=standard.slug if standard else "",
                meaning=standard.meaning if standard else "made",
                label=row["label"],
                printed_on=printed,
                precision=precision,
            )

    def _printed(self, row: dict[str, Any]) -> tuple[date | None, str]:
        """The first day of what its label prints, and whether that is a month or a year."""
        if "years" in row:
            return date(self.today.year + row["years"], 1, 1), "year"
        if "months" not in row:
            return None, ""
        months = self.today.year * 12 + self.today.month - 1 + row["months"]
        return date(months // 12, months % 12 + 1, 1), "month"
