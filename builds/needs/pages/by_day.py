"""Until when a part may come before its car is late, in words."""

from dataclasses import dataclass
from datetime import date, timedelta

from builds.work.models.need import Need
from garage.engine.moments import day_words

BEING_FOUND = "Until when parts may come is being worked out."


@dataclass(frozen=True)
class ByDay:
    """`words` such as `order by Mon 1 Mar, here by Thu 4 Mar`; `act_on` is the day to do something about it.

    `late` when its car is late for want of it as things are.
    """

    words: str
    act_on: date
    late: bool = False


def by_day(need: Need, last: date | None, today: date) -> ByDay | None:
    """`last` is the last day on which it may come by the plan on the wall; None where nothing is to be said."""
    if last is None:
        return None
    said = _by(last, today)
    if last < today:
        return ByDay(f"too late: it had to be here {said}", today, late=True)
    if need.expected_on and need.expected_on >= today:
        if need.expected_on > last:
            return ByDay(f"comes too late: it must be here {said}", today, late=True)
        return ByDay(f"may come until {_day(last, today)}", last)
    if need.lead_days is None:
        return ByDay(f"must be here {said}", last)
    order = last - timedelta(days=need.lead_days)
    if order < today:
        takes = f"{need.lead_days} day{'s' * (need.lead_days != 1)}"
        return ByDay(f"too late to order: it takes {takes} and must be here {said}", today, late=True)
    return ByDay(f"order {_by(order, today)}, here {said}", order)


def _by(day: date, today: date) -> str:
    return _day(day, today) if day == today else f"by {day_words(day)}"


def _day(day: date, today: date) -> str:
    return f"today, {day_words(day)}" if day == today else day_words(day)
