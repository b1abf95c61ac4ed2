"""What people do in a season: from what Today offers each, with lengths drawn anew for every job."""

import random
from collections import Counter
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from django.db import transaction
from django.urls import resolve

from builds.jobs.actions import Finish, finish
from builds.plan.actions.follow import follow, follow_write
from builds.plan.engine.stored import Stored
from builds.plan.facts.stored import shown
from builds.steps.actions import findings, hold_points, steps
from builds.steps.facts.looks import to_look_at
from builds.steps.facts.opened import asks
from builds.today.pages.people import NextJob, people_today
from builds.today.pages.to_sign import to_sign
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.facts.room_now import room_in
from builds.work.facts.work import load_work
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage import writes
from garage.facts.presence import member_windows, members_from
from garage.models import Garage, Membership
from tests.season.acts import Acts
from tests.season.invariants import broken
from tests.season.looks import ALL, PLAN, ROWS, look, moves
from tests.season.made_garage import MUST_HAVE, MadeGarage, measure, measured

AGAIN = timedelta(hours=2)  # so often somebody with nothing to do looks at Today
NOW_AND_THEN = timedelta(minutes=100)  # between two looks at all places, which take the longest: twice an evening
FINDS_SOMETHING = 0.12


class Season:
    """One garage and the hand of its clock; `figures` count what happened, `wrong` what broke."""

    def __init__(self, made: MadeGarage, clock: Any, seed: int, *, closely: bool = False) -> None:
        """`closely` has all places compared after every write, not only now and then."""
        self.made, self.clock, self.random, self.closely = made, clock, random.Random(seed), closely
        self.left: dict[int, float] = {}  # minutes of work by job (pk), as drawn
        self.saw: dict[int, tuple[int, datetime]] = {}  # by member (pk), writes and moment of a look in vain
        self.looked = 0  # writes up to which the rows were looked at
        self.compared_at: datetime | None = None  # when all places were compared
        self.plan: Stored | None = None
        self.wrong: list[str] = []
        self.figures: Counter[str] = Counter()
        self.moved: list[tuple[datetime, int]] = []  # by plan, how many jobs moved by more than a day
        self.acts = Acts()

    @property
    def at(self) -> datetime:
        return self.clock.at

    def act(self, name: str, do: Callable[[], Any], car: str = "", things: int = 1) -> Any:
        """One form sent: counted, followed by the plan, and looked at; `things` are what it wrote down."""
        with transaction.atomic():
            result = do()
            writes.count(self.made.garage.pk, at=self.at)
        self.figures[name] += 1
        self.acts.add(car, name, things)
        follow_write(self.made.garage.pk, at=self.at)
        self.check(ALL if self.closely else PLAN, wrote=True)
        return result

    def writes(self) -> int:
        return Garage.objects.values_list("writes", flat=True).get(pk=self.made.garage.pk)

    def look_round(self) -> None:
        """Once for all that was written at this moment; at all places where that was not done lately."""
        if self.looked < self.writes():
            self.looked = self.writes()
            lately = self.compared_at and self.at - self.compared_at < NOW_AND_THEN
            self.check(ROWS if lately else ALL)

    def check(self, deep: int, *, wrote: bool = False) -> None:
        """The invariants, of this moment and of the plan that was just put up."""
        me, now = Membership.objects.get(pk=self.made.owner.pk), shown(self.made.garage)
        seen = look(me, self.at, self.plan, wrote=wrote, deep=deep)
        self.wrong += broken(seen)
        self.acts.fit((car for car, whole in seen.whole.items() if whole.state == "fit"), f"{self.at:%d %b}")
        if deep == ALL:
            self.compared_at = self.at
        if now and (self.plan is None or now.row != self.plan.row):
            far = [title for title, days in moves(self.plan, now).items() if abs(days) > 1]
            self.moved.append((self.at, len(far)))
        self.plan = now

    def follow(self) -> None:
        """As before every page: the plan is one of the garage as it is."""
        assert follow(Garage.objects.get(pk=self.made.garage.pk), at=self.at) == ""

    def next_for(self, member: Membership) -> NextJob | None:
        """What Today has next for him."""
        self.follow()
        me = Membership.objects.get(pk=member.pk)
        work = load_work(me.garage, self.at)
        there = people_today(me, members_from(me.garage, self.at), work, shown(me.garage), room_in(me.garage, work))
        return next(person.next for person in there if person.is_me)

    def live_until(self, end: datetime) -> None:
        while self.at < end:
            self.finish_what_is_done()
            self.go_home()
            idle = self.take_up()
            self.look_round()
            self.pass_time(end, idle)

    def who_is_in(self) -> list[Membership]:
        there = member_windows(self.made.garage, self.at, self.at + timedelta(minutes=1))
        return [member for member in self.made.people.values() if there[member.pk]]

    def in_hand(self) -> list[Job]:
        return list(Job.objects.in_garage(self.made.garage).in_hand().select_related("vehicle").order_by("pk"))

    def hands_on(self, job: Job) -> list[Membership]:
        return list(job.spans.running().get().crew.all())

    def finish_what_is_done(self) -> None:
        for job in self.in_hand():
            if self.left[job.pk] <= 0:
                self.finish(job, self.hands_on(job)[0])

    def finish(self, job: Job, by: Membership) -> None:
        """What was seen on the way, then the work's end and its readings in one form."""
        car, keys = job.vehicle.name, [key for key in MUST_HAVE if key in job.measures]
        if job.recipe not in TAKEN_AGAIN and self.random.random() < FINDS_SOMETHING:
            hurts = self.random.random() < 0.5
            self.act("finding", lambda: findings.found(job, "Chafed hose", hurts=hurts, by=by, at=self.at), car)
        job.refresh_from_db()
        opened = list(job.kinds) if asks(job) else None
        came = Finish(readings=tuple(measured(self.made, key, last_of=job) for key in keys))
        self.figures["reading"] += len(keys)
        form = partial(finish, job, by=by, at=self.at, kinds=opened, because="only looked at", came=came)
        self.act("finish", form, car, things=1 + len(keys))

    def read(self, job: Job, key: str, by: Membership) -> None:
        measure(self.made, job.vehicle, key, by=by, at=self.at, last_of=job)

    def go_home(self) -> None:
        """Whoever's hours are over puts down what he has in hand, for all who are on it."""
        there = {member.pk for member in self.who_is_in()}
        for job in self.in_hand():
            hands = self.hands_on(job)
            if not all(member.pk in there for member in hands):
                self.act("put down", lambda job=job, by=hands[0]: steps.stop(job, by=by, at=self.at), job.vehicle.name)

    def take_up(self) -> bool:
        """Each who is free signs what he may and starts what Today has next for him; whether somebody found nothing."""
        idle = False
        for member in self.who_is_in():
            seen = self.saw.get(member.pk)
            if seen and seen[0] == self.writes() and self.at - seen[1] < AGAIN:
                continue
            self.sign(member)
            if not self.busy(member) and not self.start(member):
                idle = True
            self.saw[member.pk] = self.writes(), self.at
        return idle

    def busy(self, member: Membership) -> bool:
        return any(member in self.hands_on(job) for job in self.in_hand())

    def sign(self, member: Membership) -> None:
        """What Today has waiting for a second pair of eyes, if his may look."""
        if (
            not to_look_at(Job.objects.in_garage(self.made.garage))
            and not HoldPoint.objects.in_garage(self.made.garage).reached().exists()
        ):
            return  # the same as an empty list on Today, sooner
        me = Membership.objects.get(pk=member.pk)
        for waiting in to_sign(me, members_from(me.garage, self.at), load_work(me.garage, self.at)):
            if not waiting.may_sign:
                continue
            asked = resolve(waiting.url)
            pk, car = asked.kwargs["pk"], waiting.card.vehicle
            if asked.url_name == "job_sign":
                job = Job.objects.get(pk=pk)
                self.act("signed", lambda job=job: steps.sign(job, by=member, at=self.at), car)
            else:
                point = HoldPoint.objects.get(pk=pk)
                value = "by eye, nothing seen" if point.asks else ""
                sign = partial(hold_points.sign, point, by=member, at=self.at, value=value)
                self.act("signed", sign, car)

    def start(self, member: Membership) -> bool:
        """What Today has next for him, with those whom the plan has on it, where all are here with free hands."""
        turn = self.next_for(member)
        if turn is None or "start" not in turn.card.steps:
            return False
        crew = [one for one in self.made.people.values() if one.pk in turn.crew]
        here = self.who_is_in()
        if any(one not in here or self.busy(one) for one in crew):
            return False
        job = Job.objects.select_related("vehicle").get(pk=turn.card.pk)
        self.left.setdefault(job.pk, self.drawn(job))
        self.act("start", partial(steps.start, job, by=member, at=self.at, crew=crew), job.vehicle.name)
        return True

    def drawn(self, job: Job) -> float:
        """Minutes: beta-PERT of the three figures, the least being five."""
        low, likely, high = job.low_minutes, job.likely_minutes, job.high_minutes
        span = max(1, high - low)
        shapes = 1 + 4 * (likely - low) / span, 1 + 4 * (high - likely) / span
        return max(5.0, low + span * self.random.betavariate(*shapes))

    def pass_time(self, end: datetime, idle: bool) -> None:
        """To the next moment at which anything can happen; work in hand goes on until then."""
        ahead = member_windows(self.made.garage, self.at, self.at + timedelta(days=2)).values()
        edges = [moment for windows in ahead for window in windows for moment in window]
        working = self.in_hand()
        edges += [self.at + timedelta(minutes=max(1, self.left[job.pk])) for job in working]
        edges += [self.at + AGAIN] if idle else []
        then = min([moment for moment in edges if moment > self.at] + [end])
        for job in working:
            self.left[job.pk] -= (then - self.at).total_seconds() / 60
        self.clock.at = then
