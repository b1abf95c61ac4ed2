"""Somebody new comes for some hours on one day: one more pair of hands, or a skill that is short."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Self

from builds.plan.engine.ids import pk_of
from builds.planner.axis import clip, joined
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.wall_hours import SHORTEST, AtWallHours, WallHours, hours_between, spread
from builds.remedies.engine.changes.presence import Hands
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from garage.actions import hours, people
from garage.engine.hours import Stretch
from garage.facts.presence import stretches_on
from garage.models import Membership

EXTRA = "Extra hands"
NO_SKILL = 0
MOST_HANDS, MOST_SKILLS = 4, 3  # sessions of somebody new that are tried for each skill, and skills


@dataclass(frozen=True)
class HandsDeed(AtWallHours, Deed):
    """`skill` is 0 where none is asked for."""

    kind = "hands"
    tried_as = "somebody new for an evening"
    owner_only = True
    way_back = "take them out on the people page"

    skill: int
    since: int
    until: int
    day: date

    def told(self, rows: DeedRows) -> str:
        known = "" if self.skill == NO_SKILL else f" with the skill “{rows.skills[self.skill].name}”"
        return f"Somebody new{known} comes {self.when}"

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        """Whoever it will be is known by a name that says so, without a way to sign in."""
        skills = [] if self.skill == NO_SKILL else [rows.skills[self.skill]]
        stretch = self.when.stretch()
        whose = next((member for member in rows.members.values() if _is_free(member, self.day, stretch)), None)
        if whose is None:
            identity = {"name": EXTRA, "surname": "", "email": None}
            whose = people.add(rows.garage, role=Membership.Role.HELPER, skills=skills, works=True, **identity)
        whose.skills.add(*skills)
        hours.set_day(whose, day=self.day, kind="extra", stretches=[stretch], note="to be asked")

    def change(self, car: LateCar) -> Hands:
        skill = None if self.skill == NO_SKILL else car.deed_rows.skills[self.skill].name
        begin, end = self.when.slots(car.clock)
        return Hands(skill, begin, end, hours_between(begin, end), _ids(skill, car))

    @classmethod
    def from_change(cls, change: Hands, car: LateCar) -> tuple[Self, ...]:
        when = WallHours.of_slots(car.clock, change.begin, change.end)
        pks = {skill.name: pk for pk, skill in car.deed_rows.skills.items()}
        skill = pks[change.skill] if change.skill else NO_SKILL
        return (cls(skill, when.since, when.until, when.day),)

    @classmethod
    def offers(cls, car: LateCar) -> Iterator[Hands]:
        """Somebody new in sessions that there are, for what the car's work asks most of."""
        presence = joined(clip(person.windows, car.due) for person in car.problem.people)
        sessions = [(begin, end) for begin, end in presence if end - begin >= SHORTEST and _on_one_day(car, begin, end)]
        for skill in _skills_asked(car)[:MOST_SKILLS]:
            for begin, end in spread(sessions, MOST_HANDS):
                yield Hands(skill, begin, end, hours_between(begin, end), _ids(skill, car))


def _is_free(member: Membership, day: date, wanted: Stretch) -> bool:
    """Whether he is one of those not named yet, and not in at that time."""
    return member.name == EXTRA and not any(
        since < wanted.until and wanted.since < until for since, until in stretches_on(member, day)
    )


def _skills_asked(car: LateCar) -> list[str | None]:
    """The skills of the car's work, None for work that asks for none, the most work first."""
    work: dict[str | None, int] = {}
    for job in car.problem.must_do(car.vehicle):
        if job.hands:
            skill = car.plan_rows.work.jobs[pk_of(job.id)].skill.name if job.skill else None
            work[skill] = work.get(skill, 0) + job.work
    return sorted(work, key=lambda skill: -work[skill])


def _ids(skill: str | None, car: LateCar) -> tuple[str, ...]:
    """Under which jobs ask for the skill."""
    return car.plan_rows.skill_ids(skill) if skill else ()


def _on_one_day(car: LateCar, begin: int, end: int) -> bool:
    return WallHours.of_slots(car.clock, begin, end).slots(car.clock) == (begin, end)
