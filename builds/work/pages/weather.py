"""Whether the shop is warm and dry enough for a job: now, and when it will be."""

from dataclasses import dataclass

from builds.cure.engine import CoatingLimits
from builds.cure.engine.air import Air, air_now
from builds.cure.engine.degrees import degrees_words, gap_words
from builds.cure.engine.dew_point import SWEATS, Refusal, verdict_at_dew_point
from builds.cure.engine.plan_clock import SLOT_MINUTES, PlanClock
from builds.work.engine.cure_times import CureTimes, limits_of
from builds.work.models.job import Job
from garage.engine.units import Unit, unit_for

DAYS, MOST_WINDOWS = 7, 8
SLOTS = DAYS * 24 * 60 // SLOT_MINUTES


@dataclass(frozen=True)
class Weather:
    """What a job asks for; `against` says what is wrong now, `windows` when it will be right.

    `metal` says so where the metal's own temperature counts and nobody measured it.
    """

    asks: str
    against: tuple[str, ...]
    windows: tuple[str, ...]
    more: int
    no_humidity: bool
    metal: str = ""


def weather_of(job: Job, times: CureTimes, system: str) -> Weather | None:
    """None for a job that asks for nothing."""
    limits, windows = limits_of(job), times.windows(job, SLOTS)
    if limits is None or windows is None:
        return None
    unit = unit_for("temperature", system)
    air = air_now(times.shop)
    wrong = against(limits, air, unit)
    if wrong and windows and windows[0][0] == 0:
        windows = windows[1:]  # the course says now, and the thermometer says otherwise
    return Weather(
        asks_words(limits, unit),
        wrong,
        tuple(_window(window, times.shop.clock) for window in windows[:MOST_WINDOWS]),
        max(0, len(windows) - MOST_WINDOWS),
        job.needs_dry and times.shop.dew is None,
        SWEATS if limits.margin is not None and air.steel is None else "",
    )


def asks_words(limits: CoatingLimits, unit: Unit) -> str:
    """`At least 10 °C, the metal 3 °C above the dew point, the air below 85 %`."""
    parts = []
    if limits.minimum is not None:
        parts.append(f"at least {degrees_words(limits.minimum, unit)}")
    if limits.margin is not None:
        parts.append(f"the metal {gap_words(limits.margin, unit)} above the dew point")
    if limits.humidity is not None:
        parts.append(f"the air below {limits.humidity:g} %")
    said = ", ".join(parts)
    return f"{said[0].upper()}{said[1:]}"


def against(limits: CoatingLimits, air: Air, unit: Unit) -> tuple[str, ...]:
    """What keeps a coat from going on in this air; what is not known is not held against it."""
    if air.dew is None or air.humidity is None:
        limits = CoatingLimits(limits.minimum)
    steel = air.celsius if air.steel is None else air.steel
    verdict = verdict_at_dew_point(limits, dew=air.dew or 0.0, humidity=air.humidity or 0.0, steel=steel)
    return tuple(_against(refusal, air, unit) for refusal in verdict.reasons)


def _against(refusal: Refusal, air: Air, unit: Unit) -> str:
    if refusal.kind == "humid":
        return f"The air is at {refusal.measured:.0f} % relative humidity."
    warm = "The air is at " if air.steel is None else "The metal is at "
    warm += degrees_words(air.celsius if air.steel is None else air.steel, unit)
    if refusal.kind == "cold":
        return f"{warm}."
    return f"{warm} and the dew point at {degrees_words(air.dew or 0.0, unit)}."


def _window(window: tuple[int, int], clock: PlanClock) -> str:
    """`Tue 14:00–18:00`, `Tue 14:00–Wed 02:00`, and open ends where it is so all the time."""
    begin, end = (clock.moment(slot) for slot in window)
    since = "now" if window[0] == 0 else f"{begin:%a %H:%M}"
    if window[1] == SLOTS:
        return "at any time" if window[0] == 0 else f"from {since} on"
    until = f"{end:%H:%M}" if begin.date() == end.date() else f"{end:%a %H:%M}"
    return f"{since}–{until}"
