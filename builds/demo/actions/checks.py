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
    file = "checks.toml"

    def fill(self) -> None:
        for car, tags in self.data["has"].items():
            check_lists.say_has(self.cars[car], tags, by=self.by)
        for given in self.data["organisers"]:
            check_lists.keep_organiser(
                self.garage, at=self.at, name=given["name"], text=given["text"], with_shipped=True
            )
            for name in given["events"]:
                event = self.event(name)
                event.organiser = given["name"]
                event.save(update_fields=["organiser"])
        self.check_list(self.data["list"])
        self.pack(self.data["pack"])

    def event(self, name: str) -> Event:
        event: Event = Event.objects.in_garage(self.garage).get(name=name)
        return event

    def check_list(self, given: dict[str, Any]) -> None:
        entry = Entry.objects.select_related("event", "vehicle").get(
            event=self.event(given["event"]), vehicle=self.cars[given["car"]]
        )
        moment = self.at - timedelta(hours=given["made"])
        made = check_lists.make(entry, by=self.members[given["by"]], at=moment)
        others = [given["failed"], given["left_out"]]
        items = made.items.exclude(key__in=[other["key"] for other in others])
        for item in items[: given["ticked"]]:
            moment += BETWEEN
            self.take(item, "tick", given["by"], moment)
        for step, other in zip(("fail", "leave_out"), others, strict=True):
            item, moment = made.items.get(key=other["key"]), moment + BETWEEN
            self.take(item, step, other["by"], moment, note=other["note"])

    def take(self, item: CheckItem, step: str, by: str, at: datetime, note: str = "") -> None:
        checks.take(item, step, by=self.members[by], at=at, key=uuid.uuid4(), note=note)

    def pack(self, given: dict[str, Any]) -> None:
        event, by = self.event(given["event"]), self.members[given["by"]]
        event.runs = given["runs"]
        event.save(update_fields=["runs"])
        moment = self.at - timedelta(hours=given["made"])
        packlist = packing.make(event, by=by, at=moment)
        for own in given["own"]:
            packing.add(packlist, **own)
        for item in PackItem.objects.filter(packlist=packlist, what__in=given["packed"]):
            moment += BETWEEN
            packing.take(item, "pack", by=by, at=moment, key=uuid.uuid4())
