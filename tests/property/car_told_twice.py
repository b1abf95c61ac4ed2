"""A car to which people do things, and the written rules of the trade beside it.

The rules are told here a second time, from what was done alone: nothing of the verdict is used.
"""

import uuid
from copy import copy
from datetime import datetime, timedelta
from typing import Self

from django.db import transaction
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from builds.joints.models import Joint
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import findings, jobs, steps
from builds.verdict.engine.judge import Verdict
from builds.verdict.facts.verdict import verdict_of
from garage.actions.refused import Refused
from tests.conftest import make_cast
from tests.factories import NOW, EntryFactory, EventFactory, MembershipFactory, VehicleFactory
from tests.property.car_ahead import Ahead
from tests.property.car_cured import Cured
from tests.property.car_driven import Driven
from tests.property.car_kept import LEAST, Kept
from tests.property.car_looked import Looked
from tests.property.car_read import ENOUGH, Read
from tests.property.car_works import OPENED, STEP, WHEEL_OFF, Look, Work

KINDS = st.lists(st.sampled_from([WHEEL_OFF, OPENED]), unique=True, max_size=2)
FORGOTTEN = [
    *("", "finish", "looks", "torque", "look", "measure", "bleed", "tick", "limit", "belts", "oil"),
    *("weigh", "put", "cure"),
]
WHY = "only looked at"


class Car(Ahead, Cured, Driven, Kept, Looked, Read, RuleBasedStateMachine):
    """One car with wheel nuts, a wheel torque and a figure as raced that it must have, and a line on brakes to tick."""

    def __init__(self) -> None:
        super().__init__()
        self.transaction = transaction.atomic()
        self.transaction.__enter__()
        self.at = NOW
        self.works: list[Work] = []
        self.ran: list[datetime] = []
        self.drives: list[Work] = []
        self.amiss = False
        self.events: list[datetime] = []
        self.torque: Look | None = None
        self.torque_seen: datetime | None = None
        self.bleed_seen: datetime | None = None
        self.ticked: datetime | None = None

    def teardown(self) -> None:
        transaction.set_rollback(True)
        self.transaction.__exit__(None, None, None)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *told: object) -> None:
        self.teardown()

    def made_fit(self, three: bool) -> None:
        self.found(three)
        self.put_right("")

    def again(self) -> Self:
        """As it was made fit, for one of several things that may become of it; nothing was worked on."""
        car = copy(self)
        car.works, car.ran, car.drives, car.events = [], [], [], []
        car.car.refresh_from_db()
        car.line.refresh_from_db()
        return car

    @initialize(three=st.booleans())
    def found(self, three: bool) -> None:
        cast = make_cast()
        self.people = {"Ines": cast.owner, "Tove": cast.helper}
        if three:
            self.people["Otto"] = MembershipFactory(garage=cast.garage, person__name="Otto")
        self.garage = cast.garage
        self.car = VehicleFactory(garage=cast.garage, state="driveable")
        self.must_be_read()
        self.nuts = Joint.objects.create(
            vehicle=self.car, name="Wheel nuts", systems=["wheels"], opened_by=[WHEEL_OFF], again_after_run=True
        )
        check_lists.keep_organiser(cast.garage, at=NOW, name="Club", text="Pedal hard", with_shipped=False)
        event = EventFactory(garage=cast.garage, organiser="Club", gates_at=NOW + timedelta(days=300, hours=-9), runs=1)
        check_lists.make(EntryFactory(event=event, vehicle=self.car), by=cast.owner, at=NOW)
        self.line = CheckItem.objects.get(checklist__entry__vehicle=self.car)
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
        self.works.append(Work(row, system, rank or "needed", list(kinds)))

    @rule(number=st.integers(0, 5), who=st.integers(0, 2))
    def start(self, number, who) -> None:
        work, hand = self.work(number), self.who(who)
        if work and self.tried(lambda at: steps.start(work.row, by=self.people[hand], at=at)):
            self.leave(hand)
            work.hands.add(hand)
            work.state, work.begun, work.left, work.looked, work.holder = "in hand", self.at, None, None, hand

    def leave(self, hand) -> None:
        """Whoever starts a job leaves the one he had in hand."""
        for work in self.works:
            if work.state == "in hand" and work.holder == hand:
                work.state, work.left = "put down", self.at

    @rule(number=st.integers(0, 5))
    def put_down(self, number) -> None:
        work = self.work(number)
        if work and self.tried(lambda at: steps.stop(work.row, by=self.people["Ines"], at=at)):
            work.state, work.left = "put down", self.at

    @rule(
        number=st.integers(0, 5), who=st.integers(0, 2), kinds=st.none() | KINDS, because=st.sampled_from(["", WHY]),
        still=st.booleans(),
    )  # fmt: skip
    def finish(self, number, who, kinds, because, still=False) -> None:
        """`still` says that nothing was done to it since its last reading, where that is asked."""
        work, hand = self.work(number), self.who(who)
        told = {"kinds": kinds, "because": because, "moment": self.asked(work) if work and still else None}
        if work and self.tried(lambda at: steps.finish(work.row, by=self.people[hand], at=at, **told)):
            done = work.kinds if kinds is None else kinds
            work.on_word = because if work.safety and not done else ""
            assert work.on_word or not work.safety or done, "safety work that says nothing of itself"
            work.rank = "safety" if work.safety else work.rank
            work.hands.add(hand)
            work.left = self.over(work) if still else self.at
            work.kinds, work.state, work.looked = list(done), "done", None

    def open_again(self, work) -> None:
        """What was signed by a wrong clock."""
        if self.tried(lambda at: steps.reopen(work.row, by=self.people["Ines"], at=at, reason="a wrong clock")):
            work.state, work.begun, work.looked = "open", self.at, None

    @rule(number=st.integers(0, 5), who=st.integers(0, 2), hurts=st.booleans())
    def find(self, number, who, hurts) -> None:
        work = self.work(number)
        if work is None or work.state == "open":
            return
        self.at += STEP
        row = findings.found(work.row, "Something", hurts=hurts, by=self.people[self.who(who)], at=self.at)
        rank = "safety" if hurts or work.safety else "needed"
        self.amiss = True
        self.works.append(Work(row, "", rank, []))  # what nobody can read is of no system until somebody says

    @rule()
    def tick(self) -> None:
        """One of a day to come is taken back first."""
        told = {"by": self.people["Tove"]}
        if self.ticked and self.ticked > self.at:
            checks.undo(self.line, at=self.at, key=uuid.uuid4(), **told)
        if self.tried(lambda at: checks.take(self.line, "tick", at=at, key=uuid.uuid4(), **told)):
            self.line.refresh_from_db()
            self.ticked = self.at

    @rule(but=st.sampled_from(FORGOTTEN))
    def put_right(self, but) -> None:
        """Everything done and looked at as it should be, or all but one thing."""
        if but != "put":
            self.put("driveable")
        for number, work in enumerate(self.works):
            if work.looked and work.looked > self.at and but != "looks":
                self.open_again(work)
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
        if but != "weigh":
            self.weigh({})
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
        if but != "cure":
            self.wait_for_cures()

    def stops(self) -> list[str]:
        """What the written rules hold against it; hands are on work until it is put down or done."""
        torquing = [work for work in self.works if {WHEEL_OFF, OPENED} & set(work.kinds)]
        stops = [*self.kept_stops(), *self.read_stops(torquing), *self.cured_stops(), *self.ahead_stops()]
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
        if self.torque and self.is_loose(self.torque.at):
            stops.append("a joint opened or run since its torque")
        if self.torque_read and self.ran_since(self.torque_read):
            stops.append("a reading older than the last run")
        if any(OPENED in work.kinds and work.left_after(self.bleed_seen or NOW) for work in self.works):
            stops.append("brakes opened, and nobody looked at how they were bled")
        if self.ticked is None or any(work.system == "brakes" and work.left_after(self.ticked) for work in self.works):
            stops.append("a line not ticked, or touched since")
        return stops

    def is_loose(self, moment: datetime) -> bool:
        opened = any(WHEEL_OFF in work.kinds and work.left_after(moment) for work in self.works)
        return opened or any(run > moment for run in self.ran)

    @invariant()
    def never_fit_where_a_rule_stops_it(self) -> None:
        if not hasattr(self, "car"):
            return
        verdict, stops = self.verdict(), self.stops()
        assert not (verdict.state == "fit" and stops), stops
        if verdict.state == "fit" and any(work.on_word and self.rests_on(work) for work in self.works):
            assert "finished as having opened nothing" in verdict.sentence

    def fit_where_no_rule_stops_it(self) -> None:
        verdict = self.verdict()
        told = [reason.sentence for reason in verdict.reasons]
        assert verdict.state == "fit" or self.stops() or self.is_more_to_say(), told

    def verdict(self) -> Verdict:
        self.car.refresh_from_db()
        return verdict_of(self.car, self.at)

    def is_more_to_say(self) -> bool:
        """Than is told here: of what was found, of what was read out of its limits, of brakes bled since the tick."""
        bled = any(OPENED in work.kinds for work in self.works) and self.torque_read.at > self.ticked
        return self.amiss or bled

    def rests_on(self, work: Work) -> bool:
        """Whether the torque that was read is older than work of which somebody says that it opened nothing."""
        read = self.torque_read
        return work.state == "done" and work.left is not None and read is not None and read.at <= work.left
