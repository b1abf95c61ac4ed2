"""Hours of one day as the clock on the wall shows them, and as slots of a plan."""

from dataclasses import dataclass
from datetime import date
from typing import Self

from builds.cure.engine.plan_clock import SLOT_MINUTES, PlanClock
from garage.actions.refused import Refused
from garage.engine.hours import Stretch, minute_words
from garage.engine.moments import day_words
from garage.engine.presence import wall_moment

MIDNIGHT = 24 * 60
SHORTEST = 4  # slots: for less than an hour nobody comes. Common practice, no source.


@dataclass(frozen=True)
class WallHours:
    """From minute `since` to minute `until` of the day."""

    day: date
    since: int
    until: int

    @classmethod
    def of_slots(cls, clock: PlanClock, begin: int, end: int) -> Self:
        """Slots [begin, end), cut at the first midnight."""
        since, until = clock.moment(begin), clock.moment(end)
        last = until.hour * 60 + until.minute if until.date() == since.date() else MIDNIGHT
        return cls(since.date(), since.hour * 60 + since.minute, last)

    def slots(self, clock: PlanClock) -> tuple[int, int]:
        """The whole slots within; below 0 in the past."""
        begin, end = (wall_moment(self.day, minute, clock.zone) for minute in (self.since, self.until))
        return clock.first_from(begin), clock.last_until(end)

    def stretch(self) -> Stretch:
        """Raises Refused for what is no stretch of one day."""
        if not 0 <= self.since < self.until <= MIDNIGHT:
            raise Refused("A session begins before it ends, on one day.")
        return Stretch(self.day.weekday(), self.since, self.until)

    def from_words(self) -> str:
        """`Tue 2 Mar 22:00`."""
        return f"{day_words(self.day)} {minute_words(self.since)}"

    def until_words(self) -> str:
        return f"{day_words(self.day)} {minute_words(self.until)}"

    def __str__(self) -> str:
        """`Tue 2 Mar 18:00–22:00`."""
        return f"{day_words(self.day)} {minute_words(self.since)}–{minute_words(self.until)}"


class AtWallHours:
    """Mixed into a deed whose fields say a day and its minutes."""

    day: date
    since: int
    until: int

    @property
    def when(self) -> WallHours:
        return WallHours(self.day, self.since, self.until)


def hours_between(begin: int, end: int) -> float:
    """How long slots [begin, end) are."""
    return (end - begin) * SLOT_MINUTES / 60


def spread(sessions: list[tuple[int, int]], most: int) -> list[tuple[int, int]]:
    """At most so many of them, the first and the last among them."""
    if len(sessions) <= most:
        return sessions
    return [sessions[k * (len(sessions) - 1) // (most - 1)] for k in range(most)]
