"""Another car is not entered: it stays at home."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Self

from builds.plan.engine.ids import id_of, pk_of
from builds.plan.facts.problem import NO_EVENT_WEIGHT
from builds.remedies.deeds.deed import Deed
from builds.remedies.engine.changes.stay_home import StayHome
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.scrutineering.actions.entries import take_out
from garage.models import Entry, Membership

MOST_CARS = 4  # that are tried


@dataclass(frozen=True)
class HomeDeed(Deed):
    kind = "home"
    tried_as = "another car left at home"
    owner_only = True
    way_back = "enter the car again on the page of the event"

    entry: int

    def told(self, rows: DeedRows) -> str:
        entry = rows.entries[self.entry]
        return f"{entry.vehicle} does not go to {entry.event}"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        take_out(rows.entries[self.entry], at=at)

    def gives_up(self) -> int | None:
        return self.entry

    def change(self, car: LateCar) -> StayHome:
        """Its next event counts then, if it has one."""
        entry = car.deed_rows.entries[self.entry]
        after = _next_entry(car, entry)
        due = min(car.clock.last_until(after.event.due_at), car.problem.slots) if after else None
        weight = after.weight if after else NO_EVENT_WEIGHT
        return StayHome(id_of("car", entry.vehicle_id), due, weight, entry.weight)

    @classmethod
    def from_change(cls, change: StayHome, car: LateCar) -> tuple[Self, ...]:
        return (cls(car.plan_rows.entry[pk_of(change.vehicle)].pk),)

    @classmethod
    def offers(cls, car: LateCar) -> Iterator[StayHome]:
        """Each other car that must leave, the one that counts least first."""
        others = [entry for vehicle, entry in car.plan_rows.entry.items() if vehicle != car.entry.vehicle_id]
        others.sort(key=lambda entry: (entry.weight, entry.pk))
        for entry in others[:MOST_CARS]:
            if car.problem.must_do(id_of("car", entry.vehicle_id)):
                yield cls(entry.pk).change(car)


def _next_entry(car: LateCar, entry: Entry) -> Entry | None:
    """The next event of the entry's car, but for this one."""
    ahead = [
        other
        for other in car.deed_rows.entries.values()
        if other.vehicle_id == entry.vehicle_id and other.pk != entry.pk and other.event.due_at > car.plan_rows.at
    ]
    return min(ahead, key=lambda other: other.event.due_at, default=None)
