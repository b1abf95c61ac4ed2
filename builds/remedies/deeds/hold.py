"""The shop stays at one temperature from a day on: tried to see what it does, never offered."""

from dataclasses import dataclass
from datetime import date, datetime

from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.figures import shop_degrees, within_shop
from builds.remedies.facts.deed_rows import DeedRows
from builds.shop.actions import shop
from garage.engine.moments import day_words
from garage.models import Membership


@dataclass(frozen=True)
class HoldDeed(Deed):
    """`warm_mc` is in thousandths of a °C."""

    kind = "hold"
    way_back = "change the days on the page of the shop"

    warm_mc: int
    day: date

    def told(self, rows: DeedRows) -> str:
        return f"The shop stays at {shop_degrees(rows.garage, self.warm_mc)} from {day_words(self.day)} on"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        shop.hold_at(rows.garage, self.day, within_shop(self.warm_mc))
