"""A station has room for one more."""

from dataclasses import dataclass
from datetime import datetime
from typing import Self

from builds.plan.engine.ids import id_of, is_of, pk_of
from builds.remedies.deeds.deed import Deed
from builds.remedies.engine.changes.room import Room, more_room
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from garage.actions.refused import Refused
from garage.models import Membership

MOST_ROOM = 50


@dataclass(frozen=True)
class RoomDeed(Deed):
    kind = "room"
    tried_as = "room for one more in a station"
    owner_only = True

    station: int

    def told(self, rows: DeedRows) -> str:
        station = rows.stations[self.station]
        return f"{station} has room for {station.capacity + 1} at once, not {station.capacity}"

    def undo(self, rows: DeedRows) -> str:
        return f"give {rows.stations[self.station]} its room back among the stations"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        station = rows.stations[self.station]
        if station.capacity >= MOST_ROOM:
            raise Refused(f"{station} has room for {station.capacity} already.")
        station.capacity += 1
        station.save(update_fields=["capacity"])

    def change(self, car: LateCar) -> Room:
        return Room(id_of("station", self.station))

    @classmethod
    def from_change(cls, change: Room, car: LateCar) -> tuple[Self, ...]:
        return (cls(pk_of(change.station)),)

    @classmethod
    def offers(cls, car: LateCar) -> list[Room]:
        offered = more_room(car.problem, car.plan, car.vehicle)
        return [change for change in offered if is_of("station", change.station)]
