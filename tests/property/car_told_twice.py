"""A car to which people do things, and the written rules of the trade beside it.

The rules are told here a second time, from what was done alone: nothing of the verdict is used.
"""

import uuid
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from django.db import transaction
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import findings, hold_points, jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.engine.again import BLEED_AGAIN
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import require, take
from tests.conftest import make_cast
from tests.factories import NOW, EntryFactory, EventFactory, MembershipFactory, VehicleFactory
from tests.property.car_driven import STEP, Driven
from tests.property.car_kept import ENOUGH, LEAST, LITTLE, Kept

WHEEL_OFF, OPENED = "wheel_off", "hydraulics_opened"
KINDS = st.lists(st.sampled_from([WHEEL_OFF, OPENED]), unique=True, max_size=2)
FORGOTTEN = ["", "finish", "looks", "torque", "look", "measure", "bleed", "tick", "limit", "belts", "oil"]
WHY = "only looked at"


@dataclass
class Work:
    """A job as it was told: whose hands were on it, until when, and who else looked after that."""

    row: Job
    brakes: bool
    rank: str
    kinds: list[str]
    hands: set[str] = field(default_factory=set)
    state: str = "open"
    left: datetime | None = None
    looked: bool = False
    on_word: str = ""
    holder: str = ""

    @property
    def safety(self) -> bool:
        return self.brakes or self.rank == "safety"


@dataclass
class Look:
    """A moment and a hand."""

    at: datetime
    by: str


class Car(Driven, Kept, RuleBasedStateMachine):
    """One car with wheel nuts, a wheel torque that it must have, and a line on brakes to tick."""

    def __init__(self) -> None:
        super().__init__()
        self.transaction = transaction.atomic()
        self.transaction.__enter__()
        self.at = NOW
        self.works: list[Work] = []
        self.ran: list[datetime] = []
        self.events: list[datetime] = []
        self.torque: Look | None = None
        self.torque_seen = False
        self.taken: datetime | None = None
        self.bleed_seen: datetime | None = None
        self.ticked: datetime | None = None

    def teardown(self) -> None:
        transaction.set_rollback(True)
        self.transaction.__exit__(None, None, None)

    @initialize(three=st.booleans())
    def found(self, three: bool) -> None:
        cast = make_cast()
        self.people = {"Ines": cast.owner, "Tove": cast.helper}
        if three:
            self.people["Otto"] = MembershipFactory(garage=cast.garage, person__name="Otto")
        self.garage = cast.garage
        self.car = VehicleFactory(garage=cast.garage, state="driveable")
        require(self.car, cast.owner, "wheel_torque")
        self.nuts = Joint.objects.create(
            vehicle=self.car, name="Wheel nuts", systems=["wheels"], opened_by=[WHEEL_OFF], again_after_run=True
        )
        check_lists.keep_organiser(cast.garage, at=NOW, name="Club", text="Pedal hard", with_shipped=False)
        event = EventFactory(garage=cast.garage, organiser="Club", gates_at=NOW + timedelta(days=60), runs=1)
        check_lists.make(EntryFactory(event=event, vehicle=self.car), by=cast.owner, at=NOW)
        self.line = CheckItem.objects.get(text="Pedal hard")
        self.hang_up(event)

    def who(self, number: int) -> str:
        return list(self.people)[number % len(self.people)]

    def work(self, number: int) -> Work | None:
        return self.works[number % len(self.works)] if self.works else None

    def tried(self, act, **more) -> bool:
        """Whether it was taken; either way time goes on."""
        self.at += STEP
        try:
            with transaction.atomic():
                act(at=self.at, **more)
        except Refused:
            return False
        return True

    @rule(system=st.sampled_from(["brakes", "cooling", "body"]), kinds=KINDS, wanted=st.booleans())
    def write_down(self, system, kinds, wanted) -> None:
        # What takes a wheel off or opens a joint is safety work by itself.
        rank = "wanted" if wanted and system != "brakes" and not kinds else ""
        self.at += STEP
        row = jobs.add(
            self.car, by=self.people["Ines"], at=self.at, title=f"Work {len(self.works)}", work=(1, 2, 3),
            systems=[system], kinds=kinds, rank=rank,
        )  # fmt: skip
        self.works.append(Work(row, system == "brakes", rank or "needed", list(kinds)))

    @rule(number=st.integers(0, 5), who=st.integers(0, 2))
    def start(self, number, who) -> None:
        work, hand = self.work(number), self.who(who)
        if work and self.tried(lambda at: steps.start(work.row, by=self.people[hand], at=at)):
            for other in self.works:  # whoever starts a job leaves the one he had in hand
                if other is not work and other.state == "in hand" and other.holder == hand:
                    other.state, other.left = "put down", self.at
            work.hands.add(hand)
            work.state, work.left, work.looked, work.holder = "in hand", None, False, hand

    @rule(number=st.integers(0, 5))
    def put_down(self, number) -> None:
        work = self.work(number)
        if work and self.tried(lambda at: steps.stop(work.row, by=self.people["Ines"], at=at)):
            work.state, work.left = "put down", self.at

    @rule(number=st.integers(0, 5), who=st.integers(0, 2), kinds=st.none() | KINDS, because=st.sampled_from(["", WHY]))
    def finish(self, number, who, kinds, because) -> None:
        work, hand = self.work(number), self.who(who)
        told = {"kinds": kinds, "because": because}
        if work and self.tried(lambda at: steps.finish(work.row, by=self.people[hand], at=at, **told)):
            work.on_word = because if work.safety and not (work.kinds if kinds is None else kinds) else ""
            assert work.on_word or not work.safety or work.kinds or kinds, "safety work that says nothing of itself"
            work.hands.add(hand)
            work.kinds = work.kinds if kinds is None else kinds
            work.state, work.left, work.looked = "done", self.at, False

    @rule(number=st.integers(0, 5), who=st.integers(0, 2), tells=st.integers(0, 2))
    def look(self, number, who, tells) -> None:
        work, eyes, teller = self.work(number), self.who(who), self.who(tells)
        if work and self.tried(
            lambda at: steps.sign(work.row, by=self.people[teller], who=self.people[eyes], at=at)
        ):  # fmt: skip
            work.looked = self.may_look(eyes, teller, work.hands)

    def may_look(self, eyes: str, teller: str, hands: set[str]) -> bool:
        """Nobody whose hands did it; where all hands did, the owner; no hand writes down another's look."""
        if eyes in hands:
            return eyes == "Ines" and teller == eyes and hands >= set(self.people)
        return teller == eyes or teller not in hands

    @rule(number=st.integers(0, 5), who=st.integers(0, 2), hurts=st.booleans())
    def find(self, number, who, hurts) -> None:
        work = self.work(number)
        if work is None or work.state == "open":
            return
        self.at += STEP
        row = findings.found(work.row, "Something", hurts=hurts, by=self.people[self.who(who)], at=self.at)
        rank = "safety" if hurts or work.safety else "needed"
        self.works.append(Work(row, False, rank, []))  # what nobody can read is of no system until somebody says

    @rule(who=st.integers(0, 2))
    def torque_nuts(self, who) -> None:
        hand = self.who(who)
        if self.tried(lambda at: joints.mark(self.nuts, by=self.people[hand], at=at, key=uuid.uuid4())):
            self.torque, self.torque_seen = Look(self.at, hand), False

    @rule(who=st.integers(0, 2))
    def look_at_nuts(self, who) -> None:
        eyes = self.who(who)
        if self.tried(lambda at: joints.sign(self.nuts, by=self.people[eyes], at=at, key=uuid.uuid4())):
            self.torque_seen = self.may_look(eyes, eyes, {self.torque.by})

    @rule(amount=st.sampled_from([ENOUGH, LITTLE]))
    def measure(self, amount) -> None:
        self.at += STEP
        take(self.car, "brake_bleed", self.people["Ines"], at=self.at)  # which work on the brakes is not over without
        take(self.car, "wheel_torque", self.people["Ines"], at=self.at, amount=amount)
        self.taken, self.amount = self.at, amount

    @rule(who=st.integers(0, 2))
    def look_at_bleed(self, who) -> None:
        for point in HoldPoint.objects.filter(job__vehicle=self.car, job__recipe=BLEED_AGAIN).unsigned():
            if self.tried(lambda at, point=point: hold_points.sign(point, by=self.people[self.who(who)], at=at)):
                self.bleed_seen = self.at

    @rule()
    def tick(self) -> None:
        key = uuid.uuid4()
        if self.tried(lambda at: checks.take(self.line, "tick", by=self.people["Tove"], at=at, key=key)):
            self.line.refresh_from_db()
            self.ticked = self.at

    @rule(but=st.sampled_from(FORGOTTEN))
    def put_right(self, but) -> None:
        """Everything done and looked at as it should be, or all but one thing."""
        for number, work in enumerate(self.works):
            if work.state != "done" and but != "finish":
                self.finish(number, 1, work.kinds or [OPENED], "")
            for eyes in (0, 2):
                if not work.looked and but != "looks":
                    self.look(number, eyes, eyes)
        if but != "torque":
            self.torque_nuts(1)
        if but != "look":
            self.look_at_nuts(0)
        if but != "measure":
            self.measure(ENOUGH)
        if but != "bleed":
            self.look_at_bleed(1)
        if but != "tick":
            self.tick()
        if but != "limit":
            self.set_limit(LEAST)
        if but != "belts":
            self.change_belts(0)
        if but != "oil":
            self.fill_oil(1)

    def stops(self) -> list[str]:
        """What the written rules hold against it; hands are on work until it is put down or done."""
        stops = self.kept_stops()
        for work in self.works:
            must = work.safety or work.rank == "needed"
            if work.state != "done" and must:
                stops.append("an open safety or needed job")
            if work.state == "done" and work.safety and not work.looked:
                stops.append("safety work that nobody else looked at")
            if work.state == "in hand" and set(work.kinds) & {WHEEL_OFF, OPENED}:
                stops.append("work in hand that opens something")
        if self.torque is None or not self.torque_seen:
            stops.append("a loose or unsigned safety joint")
        if self.torque and self.since(self.torque.at, {WHEEL_OFF}):
            stops.append("a joint opened or run since its torque")
        if self.taken is None or self.since(self.taken, {WHEEL_OFF, OPENED}):
            stops.append("a reading missing, void or older than the last run")
        if any(OPENED in work.kinds and self.left_after(work, self.bleed_seen or NOW) for work in self.works):
            stops.append("brakes opened, and nobody looked at how they were bled")
        if self.ticked is None or any(work.brakes and self.left_after(work, self.ticked) for work in self.works):
            stops.append("a line not ticked, or touched since")
        return stops

    def since(self, moment: datetime, kinds: set[str]) -> bool:
        worked = any(self.left_after(work, moment) and kinds & set(work.kinds) for work in self.works)
        return worked or any(run > moment for run in self.ran)

    @staticmethod
    def left_after(work: Work, moment: datetime) -> bool:
        return work.state == "in hand" or (work.left is not None and work.left > moment)

    @invariant()
    def never_fit_where_a_rule_stops_it(self) -> None:
        if not hasattr(self, "car"):
            return
        verdict, stops = verdict_of(self.car, self.at), self.stops()
        assert not (verdict.state == "fit" and stops), stops
        if verdict.state == "fit" and any(work.on_word and self.rests_on(work) for work in self.works):
            assert "finished as having opened nothing" in verdict.sentence

    def rests_on(self, work: Work) -> bool:
        """Whether the torque that was read is older than work of which somebody says that it opened nothing."""
        return work.state == "done" and work.left is not None and self.taken is not None and self.taken <= work.left
