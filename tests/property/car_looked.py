"""Who looks at what on a car: work that is done, the torque of its nuts, how brakes were bled.

As in `car_told_twice` the rules are told from what was done alone.
"""

import uuid
from collections.abc import Callable
from datetime import datetime

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.steps.actions import hold_points, steps
from builds.work.engine.again import BLEED_AGAIN
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.models import Membership, Vehicle
from tests.property.car_works import Look, Work


class Looked:
    """`torque` is the mark on the `nuts`, `torque_seen` when somebody looked at it, `bleed_seen` at how it was bled."""

    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    nuts: Joint
    torque: Look | None
    torque_seen: datetime | None
    bleed_seen: datetime | None
    who: Callable[[int], str]
    work: Callable[[int], Work | None]
    tried: Callable[..., bool]

    @rule(number=st.integers(0, 5), who=st.integers(0, 2), tells=st.integers(0, 2))
    def look(self, number, who, tells) -> None:
        work, eyes, teller = self.work(number), self.who(who), self.who(tells)
        if work and self.tried(
            lambda at: steps.sign(work.row, by=self.people[teller], who=self.people[eyes], at=at)
        ):  # fmt: skip
            work.looked = self.at if self.may_look(eyes, teller, work.hands) else None

    def may_look(self, eyes: str, teller: str, hands: set[str]) -> bool:
        """Nobody whose hands did it; where all hands did, the owner; no hand writes down another's look."""
        if eyes in hands:
            return eyes == "Ines" and teller == eyes and hands >= set(self.people)
        return teller == eyes or teller not in hands

    @rule(who=st.integers(0, 2))
    def torque_nuts(self, who) -> None:
        hand = self.who(who)
        if self.tried(lambda at: joints.mark(self.nuts, by=self.people[hand], at=at, key=uuid.uuid4())):
            self.torque, self.torque_seen = Look(self.at, hand), None

    @rule(who=st.integers(0, 2))
    def look_at_nuts(self, who) -> None:
        eyes = self.who(who)
        if self.tried(lambda at: joints.sign(self.nuts, by=self.people[eyes], at=at, key=uuid.uuid4())):
            self.torque_seen = self.at if self.may_look(eyes, eyes, {self.torque.by}) else None

    @rule(who=st.integers(0, 2))
    def look_at_bleed(self, who) -> None:
        """What was signed by a wrong clock is opened again first."""
        for job in Job.objects.filter(vehicle=self.car, recipe=BLEED_AGAIN, signed_at__gt=self.at):
            self.tried(lambda at, job=job: steps.reopen(job, by=self.people["Ines"], at=at, reason="a wrong clock"))
        for point in HoldPoint.objects.filter(job__vehicle=self.car, job__recipe=BLEED_AGAIN).unsigned():
            if self.tried(lambda at, point=point: hold_points.sign(point, by=self.people[self.who(who)], at=at)):
                self.bleed_seen = self.at
