"""Gear on a car: the crash it may have been in, what it has done, what does not pass on the day."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from garage.engine.gear import AS_PRINTED, KINDS, WARNED, GearItem, Judged, judge
from garage.engine.gear.printed import end_of_month
from garage.engine.moments import date_words
from garage.engine.words import duration_words


@dataclass(frozen=True, slots=True)
class Crash:
    """A job that looks a car over after a crash: when (aware) it was written down."""

    car: str
    title: str
    at: datetime


@dataclass(frozen=True, slots=True)
class GearFact:
    """An item that does not pass on the day: out (of date), due by use, undated, struck or missing.

    `id` is 0 for one that is missing; `kind` is one of `garage.engine.gear.KINDS`, where it is told.
    """

    id: int
    name: str
    state: str
    words: str = ""
    kind: str = ""


def gear_fact(gear: int, name: str, kind: str, judged: Judged, struck: str) -> GearFact:
    """Of a piece (its id, name and kind) as it was judged; `struck` says which crash, if any."""
    return GearFact(gear, name, judged.state, struck or judged.sentence, kind)


def missing_gear(kind: str) -> GearFact:
    return GearFact(0, KINDS[kind].label, "missing", kind=kind)


def fits_another(kind: str) -> str:
    """What the job is called that fits another piece of a kind in place of one that came off its car."""
    return f"Fit: {KINDS[kind].label}"


FITS_ANOTHER = frozenset(map(fits_another, KINDS))
CAME_OFF = " came off"


def off_its_car(title: str, put_down: str) -> str:
    """What came off a car, by its name, while nobody has begun the job that fits another; empty for any other work.

    `put_down` is why the job lies.
    """
    name = put_down.removesuffix(CAME_OFF)
    return name if title in FITS_ANOTHER and name != put_down else ""


def why_struck(note: str | None, crash: Crash | None, zone: ZoneInfo) -> str:
    """What struck a piece, in one sentence, with the day of a crash by the clock of that zone; empty where nothing did.

    `note` is what its owner wrote of it, None where nobody marked it by hand; it goes before a crash.
    """
    if note is not None:
        return f"{note.rstrip('.')}." if note else ""
    if crash is None:
        return ""
    return f"“{crash.title}” on {crash.car}, written down {date_words(crash.at.astimezone(zone).date())}."


@dataclass(frozen=True, slots=True)
class Lasts:
    """How long a piece lasts: runs, minutes at so many a run, months; None where that ends nothing."""

    runs: int | None = None
    minutes: int | None = None
    run_minutes: int | None = None
    months: int | None = None


@dataclass(frozen=True, slots=True)
class Used:
    """Since which day it is new, runs since then, and what `event` still asks of it (`ahead` runs).

    `to_come` where that day is: the clock was wrong when it was written down.
    """

    since: date
    runs: int
    ahead: int = 0
    event: str = ""
    to_come: bool = False


def by_use(lasts: Lasts, used: Used, day: date) -> Judged:
    """How a piece stands by what it has done until `day`, the event's runs counted in; the worst of all.

    Due once it has done what it lasts, or will have before the event is over. Months count to the
    same day of the month, or its last. ValueError when nothing ends it.
    """
    if used.to_come:  # nobody knows what it did before that
        return Judged("undated", None, f"New on {date_words(used.since)}, and that is still to come.")
    ends = [
        *_by_amount(lasts.runs, 1, used, str, " runs"),
        *_by_amount(lasts.minutes, lasts.run_minutes or 0, used, duration_words, ""),
        *_by_months(lasts.months, used.since, day),
    ]
    if not ends:
        raise ValueError("Nothing says how long it lasts.")
    worst = min(ends, key=lambda judged: judged.order)
    said = " ".join(judged.sentence for judged in ends if judged.state == worst.state)
    return Judged(worst.state, worst.last_day, said)


def _by_amount(most: int | None, a_run: int, used: Used, words: Callable[[int], str], what: str) -> Iterator[Judged]:
    if most is None:
        return
    done, ahead = used.runs * a_run, used.ahead * a_run
    said = f"{words(done)} of {words(most)}{what} done"
    if done >= most:
        yield Judged("due", None, f"{said}: it is due.")
    elif done + ahead > most:
        yield Judged("due", None, f"{said}, and {used.event} has {words(ahead)}{what} more.")
    else:
        yield Judged("good", None, f"{said}.")


def _by_months(months: int | None, since: date, day: date) -> Iterator[Judged]:
    if months is None:
        return
    last = months_after(since, months)
    said = f"new on {date_words(since)}, for {months} month{'' if months == 1 else 's'}"
    state = "due" if last < day else "soon" if last - day <= WARNED else "good"
    yield Judged(state, last, f"Due on {date_words(last)}: {said}.")


def months_after(day: date, months: int) -> date:
    """The same day so many months on, or the last of that month."""
    years, month = divmod(day.month - 1 + months, 12)
    first = date(day.year + years, month + 1, 1)
    return first.replace(day=min(day.day, end_of_month(first).day))


def lasts_longer(was: GearItem, now: GearItem, day: date) -> bool:
    """Whether a piece that had a date is good for longer by what is said of it now, or has no date any more.

    A piece without a date is not known to be good: that it gets one makes it no longer good than it is.
    """
    if was.printed is None:
        return False
    if now.printed is None or (was.made and (now.made is None or now.made.on > was.made.on)):
        return True
    before, after = (
        judge(replace(was, struck=False), AS_PRINTED, day),
        judge(replace(now, struck=False), AS_PRINTED, day),
    )
    if before.last_day is None:
        return not before.passes and after.passes
    return after.last_day is None or after.last_day > before.last_day


def changed_words(was: Mapping[str, str], now: Mapping[str, str]) -> str:
    """`Date: until 2024, now until 2036`: of what is said of a piece, by its label, what is another now."""
    said = [f"{label}: {was[label] or 'none'}, now {now[label] or 'none'}" for label in was if was[label] != now[label]]
    return "; ".join(f"{line[0].upper()}{line[1:]}" for line in said)
