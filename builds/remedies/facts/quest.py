"""A late car as the hunt for remedies takes it: the problem, its plan, and what deeds they ask."""

from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.facts.problem import problem_of
from builds.plan.facts.rows import PlanRows, fetch
from builds.plan.facts.stored import shown
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.planner.search import plan as planned
from builds.remedies.engine.attempts import TRIES, Hunt
from builds.remedies.engine.changes import Change, Defer, ExtraSession, Hands, Room, Sooner, StayHome
from builds.remedies.facts.deeds import Deed, parse_all
from builds.remedies.pages.deed_words import Book
from garage.models import Entry

SEED = 1


@dataclass(frozen=True)
class Quest:
    """`plan` is the best quick plan of things as they are, near the one on the wall."""

    entry: Entry
    rows: PlanRows
    clock: PlanClock
    problem: Problem
    plan: Plan
    book: Book

    @property
    def vehicle(self) -> str:
        return id_of("car", self.entry.vehicle_id)

    @property
    def due(self) -> int:
        """The slot in which the car leaves, or the last one of the plan."""
        return min(self.clock.last_until(self.entry.event.due_at), self.problem.slots)

    @cached_property
    def skills(self) -> dict[str, int]:
        return {skill.slug: pk for pk, skill in self.book.skills.items()}

    def hunt(self, offers: tuple[Change, ...]) -> Hunt:
        return Hunt(self.problem, self.plan, self.vehicle, offers, self.clock.words, SEED)

    def deeds(self, changes: tuple[Change, ...]) -> tuple[Deed, ...]:
        """What has to be done to the garage for these changes of the problem."""
        if not changes:
            return (Deed("again"),)
        return tuple(deed for change in changes for deed in self._deeds(change))

    def _deeds(self, change: Change) -> tuple[Deed, ...]:
        if isinstance(change, Defer):
            return (Deed("defer", (self.entry.pk, *map(pk_of, change.jobs))),)
        if isinstance(change, ExtraSession):
            day, since, until = wall_hours(self.clock, change.begin, change.end)
            return (Deed("session", (pk_of(change.person), since, until), day),)
        if isinstance(change, Hands):
            day, since, until = wall_hours(self.clock, change.begin, change.end)
            skill = self.skills[change.skill] if change.skill else 0
            return (Deed("hands", (skill, since, until), day),)
        if isinstance(change, Room):
            return (Deed("room", (pk_of(change.station),)),)
        if isinstance(change, StayHome):
            return (Deed("home", (self.rows.entry[pk_of(change.vehicle)].pk,)),)
        if isinstance(change, Sooner):
            return parse_all(change.key)
        raise TypeError(f"nobody knows how to do {change!r}")


def wall_hours(clock: PlanClock, begin: int, end: int) -> tuple[date, int, int]:
    """The day and the minutes of the wall's clock of slots [begin, end), cut at midnight."""
    since, until = clock.moment(begin), clock.moment(end)
    last = until.hour * 60 + until.minute if until.date() == since.date() else 24 * 60
    return since.date(), since.hour * 60 + since.minute, last


def quest_of(entry: Entry, at: datetime) -> Quest:
    """Raises ProblemError when the rows do not hang together."""
    garage = entry.event.garage
    rows, wall = fetch(garage, at), shown(garage)
    clock = PlanClock.from_moment(at, rows.zone)
    problem, _ = problem_of(rows, wall.promises(clock) if wall else ())
    plan = planned(problem, tries=TRIES, seed=SEED, when=clock.words)
    return Quest(entry, rows, clock, problem, plan, Book(garage))
