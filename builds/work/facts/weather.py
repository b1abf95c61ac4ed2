"""Whether the shop is warm and dry enough for a job: now, and when it will be."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction

from builds.cure.engine import CoatingLimits, relative_humidity
from builds.cure.engine.dew_point import Refusal, dew_point, verdict_at_dew_point
from builds.cure.engine.plan_clock import SLOT_MINUTES, PlanClock
from builds.cure.engine.sheet_line import CELSIUS
from builds.cure.facts.shop import Shop, celsius
from builds.work.facts.cure_times import CureTimes, limits_of
from builds.work.models.job import Job
from garage.engine.units import Unit, convert_difference, number_words, quantity_words, unit_for

FRESH = timedelta(hours=1)  # how long a reading says what it is like now
DAYS, MOST_WINDOWS = 7, 8
SLOTS = DAYS * 24 * 60 // SLOT_MINUTES


@dataclass(frozen=True)
class Air:
    """°C of the air and of the metal, % relative humidity and °C of dew point where known."""

    celsius: float
    steel: float
    humidity: float | None
    dew: float | None
    read_at: datetime | None = None


@dataclass(frozen=True)
class Weather:
    """What a job asks for; `against` says what is wrong now, `windows` when it will be right."""

    asks: str
    against: tuple[str, ...]
    windows: tuple[str, ...]
    more: int
    no_humidity: bool


def degrees_words(value: float, unit: Unit) -> str:
    return quantity_words(Fraction(value), CELSIUS, unit)


def gap_words(value: float, unit: Unit) -> str:
    """A difference of °C in the unit."""
    return f"{number_words(convert_difference(Fraction(value), CELSIUS, unit), 1)} {unit.symbol}"


def air_now(shop: Shop) -> Air:
    """As it was just read, else as it is expected to be."""
    newest = shop.newest
    if newest is not None and shop.at - newest.at <= FRESH:
        air = celsius(newest.air_mc)
        steel = air if newest.metal_mc is None else celsius(newest.metal_mc)
        if newest.humidity is not None:
            dew = dew_point(air, newest.humidity)
            return Air(air, steel, newest.humidity, dew, newest.at)
        return _with_dew(air, steel, shop, newest.at)
    air = shop.at_moment(shop.at)
    return _with_dew(air, air, shop, None)


def _with_dew(air: float, steel: float, shop: Shop, read_at: datetime | None) -> Air:
    if shop.dew is None:
        return Air(air, steel, None, None, read_at)
    dew = shop.dew.at(shop.minute(shop.at))
    return Air(air, steel, relative_humidity(air, dew), dew, read_at)


def weather_of(job: Job, times: CureTimes) -> Weather | None:
    """None for a job that asks for nothing."""
    limits, windows = limits_of(job), times.windows(job, SLOTS)
    if limits is None or windows is None:
        return None
    unit = unit_for("temperature", times.garage.units)
    wrong = against(limits, air_now(times.shop), unit)
    if wrong and windows and windows[0][0] == 0:
        windows = windows[1:]  # the course says now, and the thermometer says otherwise
    return Weather(
        asks_words(limits, unit),
        wrong,
        tuple(_window(window, times.shop.clock) for window in windows[:MOST_WINDOWS]),
        max(0, len(windows) - MOST_WINDOWS),
        job.needs_dry and times.shop.dew is None,
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
    found = verdict_at_dew_point(limits, dew=air.dew or 0.0, humidity=air.humidity or 0.0, steel=air.steel)
    return tuple(_against(refusal, air, unit) for refusal in found.reasons)


def _against(refusal: Refusal, air: Air, unit: Unit) -> str:
    if refusal.kind == "cold":
        return f"The metal is at {degrees_words(air.steel, unit)}."
    if refusal.kind == "dew":
        dew = degrees_words(air.dew or 0.0, unit)
        return f"The metal is at {degrees_words(air.steel, unit)} and the dew point at {dew}."
    return f"The air is at {refusal.found:.0f} % relative humidity."


def _window(window: tuple[int, int], clock: PlanClock) -> str:
    """`Tue 14:00–18:00`, `Tue 14:00–Wed 02:00`, and open ends where it is so all the time."""
    begin, end = (clock.moment(slot) for slot in window)
    since = "now" if window[0] == 0 else f"{begin:%a %H:%M}"
    if window[1] == SLOTS:
        return "at any time" if window[0] == 0 else f"from {since} on"
    until = f"{end:%H:%M}" if begin.date() == end.date() else f"{end:%a %H:%M}"
    return f"{since}–{until}"
