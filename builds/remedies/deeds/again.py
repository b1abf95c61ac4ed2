"""Planning anew is all of it: a better order of the same work."""

from dataclasses import dataclass
from datetime import datetime

from builds.remedies.deeds.deed import Deed
from builds.remedies.engine.changes.change import Change
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from garage.models import Membership


@dataclass(frozen=True)
class AgainDeed(Deed):
    kind = "again"

    def told(self, rows: DeedRows) -> str:
        return "The same work in a better order"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        """Whoever does it plans anew."""

    def change(self, car: LateCar) -> Change | None:
        return None
