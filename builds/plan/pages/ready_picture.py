"""The picture of the runs of a car: on which day it was ready, against the hour it leaves."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from builds.cure.engine.plan_clock import PlanClock
from builds.odds.days import ReadyDay, ready_days
from builds.odds.words import times
from garage.engine.moments import day_words

WIDTH, HEIGHT = 320, 64
DAY = 24 * 60


@dataclass(frozen=True)
class Bar:
    """A day: runs in time stand on the ground, those too late on top of them."""

    x: float
    width: float
    in_time: float
    in_time_y: float
    late: float
    late_y: float


@dataclass(frozen=True)
class ReadyPicture:
    """`leaves_x` is the hour at which the car leaves; `days` says each day in words, `said` all of them in one line."""

    bars: tuple[Bar, ...]
    leaves_x: float
    first: str
    last: str
    days: tuple[str, ...]
    said: str
    width: int = WIDTH
    height: int = HEIGHT


def ready_picture(moments: Sequence[float], due: datetime, clock: PlanClock) -> ReadyPicture | None:
    """None when no run was ready within the plan."""
    leaves = due.astimezone(clock.zone)
    days = ready_days(moments, clock.last_until(due), leaves.date(), lambda slot: clock.moment(slot).date())
    if not days:
        return None
    most = max(day.in_time + day.late for day in days)
    step = WIDTH / len(days)
    bars = tuple(_bar(number * step, step, day, most) for number, day in enumerate(days) if day.in_time or day.late)
    leaves_x = step * ((leaves.date() - days[0].day).days + (leaves.hour * 60 + leaves.minute) / DAY)
    told = tuple(_day_said(day) for day in days if day.in_time or day.late)
    return ReadyPicture(
        bars,
        round(min(leaves_x, WIDTH), 1),
        day_words(days[0].day),
        day_words(days[-1].day),
        told,
        f"Ready {', '.join(told)}{_never_said(moments)}.",
    )


def _bar(x: float, step: float, day: ReadyDay, most: int) -> Bar:
    in_time, late = HEIGHT * day.in_time / most, HEIGHT * day.late / most
    return Bar(
        round(x + step * 0.1, 1),
        round(step * 0.8, 1),
        round(in_time, 1),
        round(HEIGHT - in_time, 1),
        round(late, 1),
        round(HEIGHT - in_time - late, 1),
    )


def _day_said(day: ReadyDay) -> str:
    """`Wed 9 Dec 40 times (3 too late)`."""
    late = f" ({day.late} too late)" if day.late else ""
    return f"{day_words(day.day)} {times(day.in_time + day.late)}{late}"


def _never_said(moments: Sequence[float]) -> str:
    """`; 2 times not within the plan`; empty where each is ready."""
    never = sum(moment == float("inf") for moment in moments)
    return f"; {times(never)} not within the plan" if never else ""
