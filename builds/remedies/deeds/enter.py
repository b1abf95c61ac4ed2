"""A car is entered for an event: tried to see what it costs the others, never offered."""

from dataclasses import dataclass
from datetime import datetime

from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.figures import within_nine
from builds.remedies.facts.deed_rows import DeedRows
from builds.scrutineering.actions.entries import enter
from garage.models import Entry, Membership


@dataclass(frozen=True)
class EnterDeed(Deed):
    kind = "enter"
    owner_only = True
    way_back = "take the car out on the page of the event"

    event: int
    vehicle: int
    weight: int

    def told(self, rows: DeedRows) -> str:
        return f"{rows.vehicles[self.vehicle]} goes to {rows.events[self.event]} and matters {self.weight} of 9"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        enter(rows.events[self.event], rows.vehicles[self.vehicle], at=at, weight=within_nine(self.weight))

    def enters(self, rows: DeedRows) -> Entry | None:
        """None for an event or a car that is gone."""
        event, vehicle = rows.events.get(self.event), rows.vehicles.get(self.vehicle)
        return Entry(event=event, vehicle=vehicle) if event and vehicle else None
