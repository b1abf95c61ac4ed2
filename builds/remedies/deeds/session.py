"""Somebody comes for some hours as well, on one day."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import filterfalse
from typing import Self

from builds.plan.engine.ids import id_of, pk_of
from builds.planner.axis import clip
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.wall_hours import SHORTEST, AtWallHours, WallHours, hours_between, spread
from builds.remedies.engine.changes.presence import ExtraSession, Hands
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from garage.access import refuse_hours
from garage.actions import hours
from garage.facts.presence import away_of, is_visitor, refuse_meanwhile
from garage.models import DayHours, Membership

# When people usually come on a day of the week, and at the weekend. Common practice, no source.
EVENING = ((18 * 60 + 30, 22 * 60),)
WEEKEND = ((8 * 60, 13 * 60), (14 * 60, 20 * 60))
SATURDAY = 5
MOST_SESSIONS = 8  # of one person that are tried


@dataclass(frozen=True)
class SessionDeed(AtWallHours, Deed):
    kind = "session"
    tried_as = "longer hours of those who work here"

    member: int
    since: int
    until: int
    day: date

    def told(self, rows: DeedRows) -> str:
        return f"{rows.members[self.member]} comes {self.when} as well"

    def undo(self, rows: DeedRows) -> str:
        return f"take that day out on the page of {rows.members[self.member]}"

    def refusal(self, rows: DeedRows, by: Membership) -> str | None:
        whose = rows.members[self.member]
        return refuse_hours(by, whose) or refuse_meanwhile(whose, self.day, [(self.since, self.until)])

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        whose, stretch = rows.members[self.member], self.when.stretch()
        hours.set_day(whose, day=self.day, kind="extra", stretches=[stretch], note="so that a car makes it")

    def change(self, car: LateCar) -> ExtraSession:
        begin, end = self.when.slots(car.clock)
        return ExtraSession(id_of("person", self.member), begin, end, hours_between(begin, end))

    @classmethod
    def from_change(cls, change: ExtraSession, car: LateCar) -> tuple[Self, ...]:
        when = WallHours.of_slots(car.clock, change.begin, change.end)
        return (cls(pk_of(change.person), when.since, when.until, when.day),)

    @classmethod
    def offers(cls, car: LateCar) -> Iterator[ExtraSession]:
        """Each one's free evenings and weekends until the car leaves; a day off stays one."""
        windows = {person.id: clip(person.windows, car.problem.slots) for person in car.problem.people}
        for member in filterfalse(is_visitor, car.plan_rows.members):
            person = id_of("person", member.pk)
            away = [(car.clock.last_until(gone.since), car.clock.first_from(gone.until)) for gone in away_of(member)]
            off = {exception.day for exception in member.day_hours.all() if exception.kind == DayHours.Kind.OFF}
            free = [
                piece
                for day in _days(car)
                if day not in off
                for piece in _free(_usual_hours(car, day), sorted([*windows[person], *away]), car.due)
            ]
            for begin, end in spread(free, MOST_SESSIONS):
                yield ExtraSession(person, begin, end, hours_between(begin, end))


def instead_of(somebody: Hands, car: LateCar) -> Iterator[ExtraSession]:
    """Those of the garage who could come at the very hours at which somebody new would help, and can what he could."""
    begin, end = somebody.begin, somebody.end
    day = WallHours.of_slots(car.clock, begin, end).day
    people = {person.id: person for person in car.problem.people}
    for member in filterfalse(is_visitor, car.plan_rows.members):
        person = people[id_of("person", member.pk)]
        gone = [(car.clock.last_until(away.since), car.clock.first_from(away.until)) for away in away_of(member)]
        taken = sorted([*clip(person.windows, car.problem.slots), *gone])
        off = any(exception.day == day and exception.kind == DayHours.Kind.OFF for exception in member.day_hours.all())
        able = somebody.skill is None or somebody.skill in person.skills
        if able and not off and _free([(begin, end)], taken, car.due) == [(begin, end)]:
            yield ExtraSession(person.id, begin, end, somebody.hours)


def _days(car: LateCar) -> Iterator[date]:
    """The days until the car leaves."""
    day, last = car.clock.moment(0).date(), car.clock.moment(car.due).date()
    while day <= last:
        yield day
        day += timedelta(days=1)


def _usual_hours(car: LateCar, day: date) -> Iterator[tuple[int, int]]:
    """When people usually come on such a day, in slots."""
    for since, until in WEEKEND if day.weekday() >= SATURDAY else EVENING:
        begin, end = WallHours(day, since, until).slots(car.clock)
        yield max(0, begin), end


def _free(stretches: Iterable[tuple[int, int]], taken: Iterable[tuple[int, int]], due: int) -> list[tuple[int, int]]:
    """What the windows leave of each stretch before the slot, pieces of an hour and more."""
    pieces = []
    for begin, end in stretches:
        for since, until in taken:
            if since < end and begin < until:
                pieces.append((begin, since))
                begin = until
        pieces.append((begin, end))
    return [(begin, min(end, due)) for begin, end in pieces if min(end, due) - begin >= SHORTEST]
