"""The demo garage's gear, from builds/demo/gear.toml: one harness has run out."""

from datetime import date, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from builds.demo.actions.room import DemoRoom
from builds.gear.actions.life import set_life
from garage.actions import gear
from garage.engine.gear import STANDARDS, DateRule
from garage.models import Event, Gear

WRITTEN = timedelta(days=30)


class DemoGear(DemoRoom):
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
        for given in self.data["gear"]:
            standard = STANDARDS.get(given.get("standard", ""))
            printed, precision = self._printed(given)
            piece = gear.add(
                self.garage,
                at=written,
                vehicle=self.cars.get(given.get("car", "")),
                member=self.members.get(given.get("person", "")),
                kind=given["kind"],
                name=given["name"],
                standard=standard.slug if standard else "",
                meaning=given.get("meaning") or (standard.meaning if standard else "made"),
                label=given["label"],
                printed_on=printed,
                precision=precision,
                made_on=date(self.today.year + given["made"], 1, 1) if "made" in given else None,
                made_precision="year" if "made" in given else "",
            )
            if "new" in given:
                self.wears(piece, given)

    def wears(self, piece: Gear, given: dict[str, Any]) -> None:
        lasts = {"runs": given.get("runs"), "minutes": None, "run_minutes": None, "months": given.get("lasts_months")}
        set_life(piece, since=self.at - timedelta(days=given["new"]), by=self.by, at=self.at, **lasts)

    def _printed(self, given: dict[str, Any]) -> tuple[date | None, str]:
        """The first day of what its label prints, and whether that is a month or a year."""
        if "years" in given:
            return date(self.today.year + given["years"], 1, 1), "year"
        if "months" not in given:
            return None, ""
        months = self.today.year * 12 + self.today.month - 1 + given["months"]
        return date(months // 12, months % 12 + 1, 1), "month"
