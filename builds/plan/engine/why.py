"""Sentences that the planner is given to say: why a job has no place, and what it waits for."""

from collections.abc import Iterable
from datetime import date, datetime

from builds.cure.engine.plan_clock import PlanClock
from builds.work.engine.blocks import NOT_IN_SIGHT, WARMER
from garage.engine.moments import day_words
from garage.engine.words import listed_in_words

TOO_COLD = "The shop is at no time within the plan as warm or dry as it asks for: heat it, or lower what the job needs."


def too_few_people(hands: int, people: int, *, here: int) -> str:
    """For a job that wants so many hands at once, on a car on which fewer people work; `here` work in the garage."""
    who = {0: "nobody works", 1: "one person works"}.get(people, f"{people} people work")
    if here >= hands:
        return f"It needs {hands} at once, and {who} on this car: say on People who else does, or that fewer do it."
    return f"It needs {hands} at once, and {who} here: ask who can come, add a person, or say that fewer do it."


def too_few_there(hands: int, there: int, event: str) -> str:
    """For a job done overnight at an event that wants more hands at once than go there of those who work on its car."""
    if hands == 1:
        return f"Nobody who works on this car goes to {event}: say who goes, or do it at home."
    some = f"{there} of those who work on this car go"
    who = {0: "nobody who works on this car goes", 1: "one of those who work on this car goes"}.get(there, some)
    return f"It needs {hands} at once, and {who} to {event}: say who goes, or do it at home."


def nobody_there_can(skill: str, event: str) -> str:
    return f"Nobody who goes to {event} has the skill “{skill}”: say who goes, or do it at home."


def hands_that_know(skill: str, event: str) -> str:
    """How the plan calls them where they are busy."""
    return f"whoever can do “{skill}” at {event}"


def air_clears(sprayed: str, at: datetime, clock: PlanClock) -> str:
    """What a job waits for, in words."""
    return f"the air to clear after “{sprayed}”, about {clock.words(clock.first_from(at))}"


def part_expected(part: str, day: date, *, ordered: bool) -> str:
    """What comes on that day; of a part that is not ordered, if it is ordered today."""
    when = f"expected {day_words(day)}" if ordered else f"here {day_words(day)} if it is ordered today"
    return f"the part “{part}”, {when}"


def looks_at_it(who: Iterable[str], slot: int, clock: PlanClock) -> str:
    """What work that is done waits for: `Kev or Tove, who looks at it Tue 19:00`."""
    return f"{listed_in_words(who, 'or')}, who looks at it {clock.words(slot)}"


def not_ordered(part: str, quantity: int) -> str:
    return f"Not ordered: {f'{quantity} × ' if quantity > 1 else ''}{part}"


def wait_over(before: str, why: str, ready: datetime, clock: PlanClock) -> str:
    """`“Prime”: the primer cures, ready Wed 06:30`; `why` may be empty."""
    when = WARMER if ready == NOT_IN_SIGHT else clock.said(ready)
    return f"“{before}”{f': {why}' if why else ''}, ready {when}"


def waits_for_it(what: str, how: str, title: str, *, begun: bool, both: str = "") -> str:
    """For a job that is not done while `what` is as it is (`how`), and that the job which leaves it so waits for in
    turn: by a link, or where `both` leave it so, for that reason.
    """
    said = f"{what[0].upper()}{what[1:]} {how} since “{title}” was {'begun' if begun else 'written down'}"
    if both:
        return f"{said}, and each of the two waits for the other: {both}. Make two jobs of one of them."
    return f"{said}, which waits for this: cut what makes it wait, with the reason, and have that done first."
