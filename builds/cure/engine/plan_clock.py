"""Slots of a plan as moments in a garage's own time."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from garage.engine.moments import dated_words

SLOT_MINUTES = 15
NEAR = timedelta(days=6)


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
        """`Tue 18:30`, with the date when it is not within the week."""
        return self.said(self.moment(slot))

    def said(self, moment: datetime) -> str:
        local = moment.astimezone(self.zone)
        if abs(local - self.start) < NEAR:
            return f"{local:%a %H:%M}"
        return dated_words(moment, self.zone)
