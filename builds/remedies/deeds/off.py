"""Somebody is not in on a day: tried to see what it costs, never offered."""

from dataclasses import dataclass
from datetime import date, datetime

from builds.remedies.deeds.deed import Deed
from builds.remedies.facts.deed_rows import DeedRows
from garage.access import refuse_hours
from garage.actions import hours
from garage.engine.moments import day_words
from garage.models import Membership


@dataclass(frozen=True)
class OffDeed(Deed):
    kind = "off"

    member: int
    day: date

    def told(self, rows: DeedRows) -> str:
        return f"{rows.members[self.member]} is not in on {day_words(self.day)}"

    def undo(self, rows: DeedRows) -> str:
        return f"take that day out on the page of {rows.members[self.member]}"

    def refusal(self, rows: DeedRows, by: Membership) -> str | None:
        return refuse_hours(by, rows.members[self.member])

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        hours.set_day(rows.members[self.member], day=self.day, kind="off", stretches=[])
