"""A clock that stood ahead while somebody wrote something down, and was then put right.

What is dated later than now nobody can place: what was done before it, and what after.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta

from hypothesis import strategies as st
from hypothesis.stateful import rule

from tests.property.car_read import ENOUGH, Torque, Weighed
from tests.property.car_works import OPENED, Look, Work

# Beyond all that is told of the car.
AHEAD = timedelta(days=500)
BY_A_WRONG_CLOCK = ["measure", "weigh", "torque_nuts", "look_at_nuts", "look", "look_at_bleed", "tick", "fill_oil"]


class Ahead:
    at: datetime
    works: list[Work]
    torque_read: Torque | None
    weighed: Weighed | None
    amiss: bool
    torque: Look | None
    torque_seen: datetime | None
    bleed_seen: datetime | None
    ticked: datetime | None
    oil_since: datetime

    @rule(act=st.sampled_from(BY_A_WRONG_CLOCK), number=st.integers(0, 5), who=st.integers(0, 2))
    def by_a_wrong_clock(self, act, number, who) -> None:
        told = {
            "measure": (ENOUGH,), "weigh": ({},), "torque_nuts": (who,), "look_at_nuts": (who,),
            "look": (number, who, who), "look_at_bleed": (who,), "tick": (), "fill_oil": (2,),
        }  # fmt: skip
        # Brakes that were bled by a wrong clock were touched on a day to come: every tick of them is older.
        self.amiss |= act == "measure" and any(OPENED in work.kinds for work in self.works)
        self.at += AHEAD
        getattr(self, act)(*told[act])
        self.at -= AHEAD

    def ahead_stops(self) -> list[str]:
        return ["something that is dated ahead"] if any(moment > self.at for moment in self.moments()) else []

    def moments(self) -> Iterator[datetime]:
        """When that was done on which the car being fit rests."""
        dated = [self.torque_read, self.weighed, self.torque]
        yield from (told.at for told in dated if told)
        looks = [self.torque_seen, self.bleed_seen, self.ticked, self.oil_since, *(work.looked for work in self.works)]
        yield from filter(None, looks)
