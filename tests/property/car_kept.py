"""What a car must have besides the work on it: a limit for its reading, belts in date, oil that has not done its runs.

As in `car_told_twice` the rules are told from what was done alone.
"""

from datetime import date, datetime, timedelta

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.gear.actions.life import set_life
from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of
from garage.models import Event, Gear, Membership, Vehicle
from tests.builds.gear.gear_kit import need, piece
from tests.property.car_read import Torque

LEAST, LIMITS, DAYS, RUNS = 0, [None, 0, 90_000], [-400, -1, 0, 1, 400], [1, 2, 3]


class Kept:
    """`at` moves on elsewhere; `events` holds when those were over at which it ran, or may have."""

    garage: object
    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    events: list[datetime]
    torque_read: Torque | None

    def hang_up(self, event: Event) -> None:
        self.day = event.gates_at.date()
        self.owner = self.people["Ines"]
        self.belts = piece(self.car)
        self.oil = piece(self.car, kind="free", name="Oil", last=None, meaning="made")
        need(self, self.car, "belts")
        self.valid_until: date = self.belts.printed_on
        self.least: int | None = None
        self.set_limit(LEAST)
        self.fill_oil(RUNS[1])

    @rule(least=st.sampled_from(LIMITS))
    def set_limit(self, least: int | None) -> None:
        kind = kind_of(self.car.garage, "wheel_torque")
        aims = {} if least is None else dict.fromkeys(["fl", "fr", "rl", "rr"], TargetInput("least", least, None, "x"))
        readings.set_targets(self.car, kind, aims)
        self.least = least

    @rule(days=st.sampled_from(DAYS))
    def change_belts(self, days: int) -> None:
        """Others, good until so many days after the event's first."""
        self.valid_until = self.day + timedelta(days=days)
        Gear.objects.filter(pk=self.belts.pk).update(printed_on=self.valid_until)

    @rule(runs=st.sampled_from(RUNS))
    def fill_oil(self, runs: int) -> None:
        set_life(self.oil, since=self.at, by=self.people["Ines"], at=self.at, runs=runs)
        self.lasts, self.oil_since = runs, self.at

    def kept_stops(self) -> list[str]:
        stops = []
        if self.least is None:
            stops.append("a reading that no limit judges")
        elif self.torque_read and self.torque_read.amount < self.least:
            stops.append("a reading out of its limits")
        if self.valid_until < self.day:
            stops.append("belts out of date on the event's day")
        if sum(over > self.oil_since for over in self.events) >= self.lasts:
            stops.append("oil that has done its runs")
        return stops
