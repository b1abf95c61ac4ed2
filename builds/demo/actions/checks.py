"""The demo garage's scrutineering and packing, from builds/demo/checks.toml."""

import uuid
from datetime import datetime, timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.packing import actions as packing
from builds.packing.models import PackItem
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from garage.models import Entry, Event

BETWEEN = timedelta(minutes=2)


class DemoChecks(DemoRoom):
    """One filling; cars and people by name."""

    file = "checks.toml"

    def fill(self) -> None:
        for car, tags in self.data["has"].items():
            check_lists.say_has(self.cars[car], tags)
        for row in self.data["organisers"]:
            check_lists.keep_organiser(self.garage, at=self.at, name=row["name"], text=row["text"], with_shipped=True)
            for name in row["events"]:
                event = self.event(name)
                event.organiser = row["name"]
                event.save(update_fields=["organiser"])
        self.list(self.data["list"])
        self.pack(self.data["pack"])

    def event(self, name: str) -> Event:
        found: Event = Event.objects.in_garage(self.garage).get(name=name)
        return found

    def list(self, row: dict[str, Any]) -> None:
        entry = Entry.objects.select_related("event", "vehicle").get(
            event=self.event(row["event"]), vehicle=self.cars[row["car"]]
        )
        moment = self.at - timedelta(hours=row["made"])
        made = check_lists.make(entry, by=self.members[row["by"]], at=moment)
        others = [row["failed"], row["left_out"]]
        items = made.items.exclude(key__in=[other["key"] for other in others])
        for item in items[: row["ticked"]]:
            moment += BETWEEN
            self.take(item, "tick", row["by"], moment)
        for step, other in zip(("fail", "leave_out"), others, strict=True):
            item, moment = made.items.get(key=other["key"]), moment + BETWEEN
            self.take(item, step, other["by"], moment, note=other["note"])

    def take(self, item: CheckItem, step: str, by: str, at: datetime, note: str = "") -> None:
        checks.take(item, step, by=self.members[by], at=at, key=uuid.uuid4(), note=note)

    def pack(self, row: dict[str, Any]) -> None:
        event, by = self.event(row["event"]), self.members[row["by"]]
        event.runs = row["runs"]
        event.save(update_fields=["runs"])
        moment = self.at - timedelta(hours=row["made"])
        packlist = packing.make(event, by=by, at=moment)
        for own in row["own"]:
            packing.add(packlist, **own)
        for item in PackItem.objects.filter(packlist=packlist, what__in=row["packed"]):
            moment += BETWEEN
            packing.take(item, "pack", by=by, at=moment, key=uuid.uuid4())
