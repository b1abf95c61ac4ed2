"""What is read of a car: the torque of its wheels, and a figure that it has only on its wheels, loaded as it is raced.

As in `car_told_twice` the rules are told from what was done alone.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.cars.actions import stand
from builds.readings.facts.last_acts import last_acts
from builds.steps.actions import links
from garage.models import Garage, Membership, Vehicle
from tests.builds.readings.reading_kit import WHOLE, limit, require, take
from tests.factories import StationFactory
from tests.property.car_works import STEP, Work

ENOUGH, LITTLE = 100_000, 1_000
HALF_AN_HOUR = timedelta(minutes=30)
# On the ground, driver and fuel as raced: rules 1, 12, 15 and 35; bump steer with the springs out.
ON_WHEELS = [
    *("ride_height", "corner_weights", "cg_height", "lock_clearance"),
    *("camber", "caster", "toe_rear", "toe_front"),
]
AS_RACED = [*ON_WHEELS, "bump_steer"]
LOADS: list[dict[str, Any]] = [
    {}, {"driver": "ballast"}, {"bars": "none"},
    {"driver": "empty"}, {"fuel_ml": 0}, {"bars": "hooked"},
    {"driver": ""}, {"fuel_ml": None}, {"bars": ""}, {"floor": ""}, {"rear_pa": None}, {"instrument": ""},
]  # fmt: skip


@dataclass
class Torque:
    """When it was read, and as the last act of which work."""

    at: datetime
    amount: int
    last_of: Work | None = None

    def ended(self, work: Work) -> bool:
        """Whether that work was over with it: no hands went to it again, and it ended within half an hour."""
        soon = work.left is None or work.left - self.at <= HALF_AN_HOUR
        return work is self.last_of and soon and not self.went_on(work)

    def went_on(self, work: Work) -> bool:
        return work.begun is not None and work.begun > self.at


@dataclass
class Weighed:
    """When it was read, how the car was loaded, and whether it stood on its wheels."""

    at: datetime
    load: dict[str, Any] = field(default_factory=dict)
    on_wheels: bool = True

    def as_raced(self, kind: str) -> bool:
        bars = kind == "corner_weights"
        told = {name: how for name, how in {**WHOLE, **self.load}.items() if bars or name != "bars"}
        if told["driver"] == "empty" or told["fuel_ml"] == 0 or told.get("bars") == "hooked":
            return False
        if kind not in ON_WHEELS:
            return bool(told["instrument"])
        return self.on_wheels and all(told.values())


class Read:
    """`weighs` is the figure that it must have besides; `standing` how it stands by somebody's word."""

    garage: Garage
    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    works: list[Work]
    amiss: bool
    work: Callable[[int], Work | None]
    tried: Callable[..., bool]

    def must_be_read(self) -> None:
        self.bay = StationFactory(garage=self.garage)
        self.standing = "driveable"
        self.torque_read: Torque | None = None
        self.read: dict[str, Weighed] = {}
        self.must_have("corner_weights")

    @rule(kind=st.sampled_from(AS_RACED))
    def must_have(self, kind: str) -> None:
        """Another figure that it must have besides its torque."""
        self.at += STEP
        require(self.car, self.people["Ines"], "wheel_torque", kind, at=self.at)
        limit(self.car, kind)
        self.weighs = kind

    @property
    def weighed(self) -> Weighed | None:
        return self.read.get(self.weighs)

    @rule(amount=st.sampled_from([ENOUGH, LITTLE]))
    def measure(self, amount: int, last_of: Work | None = None) -> None:
        self.at += STEP
        told = {"at": self.at, "last_of": last_of and last_of.row}
        take(self.car, "brake_bleed", self.people["Ines"], **told)  # which work on the brakes is not over without
        take(self.car, "wheel_torque", self.people["Ines"], amount=amount, **told)
        self.torque_read = Torque(self.at, amount, last_of)
        self.amiss |= amount == LITTLE

    @rule(number=st.integers(0, 5))
    def measure_last(self, number: int) -> None:
        """As the last act of some work."""
        if work := self.work(number):
            self.measure(ENOUGH, work)

    def asked(self, work: Work) -> datetime | None:
        """What its finish then asks: whether it was over with a reading."""
        asked = last_acts(work.row, self.at + STEP)
        return asked.ended if asked else None

    def over(self, work: Work) -> datetime:
        """Where nothing was done to it since its last reading: that is asked of one that is older than half an hour."""
        read = self.torque_read
        last = read is not None and read.at + HALF_AN_HOUR < self.at and read.last_of is work
        return max(read.at, work.left or read.at) if last and not read.went_on(work) else self.at

    @rule(load=st.sampled_from(LOADS))
    def weigh(self, load: dict[str, Any]) -> None:
        self.at += STEP
        self.car.refresh_from_db()
        take(self.car, self.weighs, self.people["Ines"], at=self.at, **load)
        self.read = self.read | {self.weighs: Weighed(self.at, load, self.standing != "stands" and not self.apart())}

    def apart(self) -> bool:
        return any(work.apart for work in self.works)

    @rule(state=st.sampled_from(["stands", "driveable"]))
    def put(self, state: str) -> None:
        """How it stands, said by somebody."""
        self.car.refresh_from_db()
        if not self.apart() and self.tried(lambda at: stand(self.car, state, at=at)):
            self.standing = state

    @rule(number=st.integers(0, 5))
    def strip(self, number: int) -> None:
        """From the start of that work to its end the car keeps its place."""
        work = self.work(number)
        if work and self.tried(lambda at: links.hold_station(self.bay, work.row, work.row)):
            work.strips = True

    def read_stops(self, worked: Iterable[Work]) -> list[str]:
        """`worked` is what disturbs the torque of its wheels."""
        stops, torque = [], self.torque_read
        if self.standing != "driveable" or self.apart():
            stops.append("on stands, or stripped")
        if torque is None or any(work.left_after(torque.at) and not torque.ended(work) for work in worked):
            stops.append("a reading missing or void")
        if self.weighed is None:
            stops.append("a reading missing")
        elif not self.weighed.as_raced(self.weighs):
            stops.append("a reading that is only a note")
        return stops
