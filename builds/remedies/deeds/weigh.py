"""An entry matters more, or less: tried to see what it does, never offered."""

from dataclasses import dataclass
from datetime import datetime

from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.figures import within_nine
from builds.remedies.facts.deed_rows import DeedRows
from garage.actions import events
from garage.models import Membership


@dataclass(frozen=True)
class WeighDeed(Deed):
    kind = "weigh"
    owner_only = True
    way_back = "change it back on the page of the event"

    entry: int
    weight: int

    def told(self, rows: DeedRows) -> str:
        entry = rows.entries[self.entry]
        return f"{entry} matters {self.weight} of 9, not {entry.weight}"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        events.change_entry(rows.entries[self.entry], weight=within_nine(self.weight))
