"""Slots of a plan as moments in a garage's own time."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from garage.engine.moments import dated_words, is_far

SLOT_MINUTES = 15


def slots_for(minutes: int) -> int:
    """Whole slots that hold so many minutes."""
    return -(-minutes // SLOT_MINUTES)


@dataclass(frozen=True)
class PlanClock:
    """Slot 0 begins at `start` (UTC); slots are equal in elapsed time, whatever clocks do."""

    start: datetime
    zone: ZoneInfo

    @classmethod
    def from_moment(cls, at: datetime, zone: ZoneInfo) -> "PlanClock":
        """Slot 0 is the first quarter of an hour that begins no sooner than `at`."""
        step = SLOT_MINUTES * 60
        seconds = -(-at.timestamp() // step) * step
        return cls(datetime.fromtimestamp(seconds, UTC), zone)

    @classmethod
    def of(cls, start: str, zone: ZoneInfo) -> "PlanClock":
        return cls(datetime.fromisoformat(start).astimezone(UTC), zone)

    def moment(self, slot: int) -> datetime:
        """When a slot begins, in the garage's time."""
        return (self.start + timedelta(minutes=SLOT_MINUTES * slot)).astimezone(self.zone)

    def first_from(self, moment: datetime) -> int:
        """The first slot that begins at or after a moment; below 0 in the past."""
        return -int((self.start - moment) // timedelta(minutes=SLOT_MINUTES))

    def last_until(self, moment: datetime) -> int:
        """The slot that has begun by a moment: work that ends there is over in time."""
        return int((moment - self.start) // timedelta(minutes=SLOT_MINUTES))

    def words(self, slot: int) -> str:
        """`Tue 18:30`, with the date when it is six days off or more."""
        return self.said(self.moment(slot))

    def said(self, moment: datetime) -> str:
        if self._is_far(moment):
            return dated_words(moment, self.zone)
        return f"{moment.astimezone(self.zone):%a %H:%M}"

    def said_beside(self, moment: datetime, beside: Iterable[datetime], *, against: datetime) -> str:
        """As `said`; with the date too where one `beside` it has one, or on the weekday of another day's `against`.

        `Sat 10:30` would be read as the Saturday of the event.
        """
        local, other = moment.astimezone(self.zone), against.astimezone(self.zone)
        mistaken = local.weekday() == other.weekday() and local.date() != other.date()
        if mistaken or any(map(self._is_far, beside)):
            return dated_words(moment, self.zone)
        return self.said(moment)

    def _is_far(self, moment: datetime) -> bool:
        return is_far(moment, self.start, self.zone)
