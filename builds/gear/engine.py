"""Gear on a car: the crash it may have been in, and what does not pass on the day."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from garage.engine.moments import date_words


@dataclass(frozen=True, slots=True)
class Crash:
    """A job that looks a car over after a crash: when (aware) it was written down."""

    car: str
    title: str
    at: datetime


@dataclass(frozen=True, slots=True)
class GearFact:
    """A dated item that does not pass on the day: out (of date), undated, struck or missing.

    `id` is 0 for one that is missing; `kind` is one of `garage.engine.gear.KINDS`, where it is told.
    """

    id: int
    name: str
    state: str
    words: str = ""
    kind: str = ""


def crash_sentence(crash: Crash, zone: ZoneInfo) -> str:
    """Which crash, in one sentence, with its day by the clock of that zone."""
    return f"{crash.title} on {crash.car}, written down {date_words(crash.at.astimezone(zone).date())}."
