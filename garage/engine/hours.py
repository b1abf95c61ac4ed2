"""Weekly hours in words: `Mon, Tue, Thu 18:30-22:00; Sat 9:00-17:00`, read and written."""

import re
from collections import defaultdict
from itertools import pairwise
from typing import NamedTuple

DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
CLOCK = r"(\d{1,2})(?:[:.]?(\d{2}))?\s*([ap]m)?"
STRETCH = re.compile(rf"{CLOCK}\s*(?:-|–|to|until)\s*{CLOCK}", re.ASCII | re.IGNORECASE)
NOON, MIDNIGHT = 720, 1440


class Stretch(NamedTuple):
    """Minutes since local midnight, `until` at most 1440; weekday 0 = Monday."""

    weekday: int
    since: int
    until: int


class HoursError(ValueError):
    """One sentence that says what to write instead."""


def minute_words(minute: int) -> str:
    """Minutes after midnight as `18:30`."""
    return f"{minute // 60}:{minute % 60:02d}"


def parse_clock(hour: str, minute: str | None, half: str | None = None) -> int:
    """Minutes since midnight of an hour and minutes as written, with am or pm as `half`. Raises HoursError."""
    value = int(hour) * 60 + int(minute or 0)
    if int(minute or 0) > 59 or value > MIDNIGHT or (half and not 1 <= int(hour) <= 12):
        raise HoursError(f"{hour}:{minute or '00'}{half or ''} is not a time of day.")
    return value % NOON + NOON * (half.lower() == "pm") if half else value


def parse_stretch(text: str) -> tuple[int, int]:
    """`18:30-22:00`, `1830-2200` or `6:30pm-10pm` as minutes since midnight. Raises HoursError.

    An am or pm behind the end alone is that of the beginning too, unless that runs backwards: `11-2pm`.
    """
    match = STRETCH.fullmatch(text.strip())
    if not match:
        raise HoursError(f"Write hours such as 18:30-22:00, not {text.strip()[:40]!r}.")
    since, until = parse_clock(match[1], match[2], match[3]), parse_clock(match[4], match[5], match[6])
    if match[6] and not until:
        until = MIDNIGHT
    if match[6] and not match[3] and since < NOON and since + NOON < until:
        since += NOON
    if since >= until:
        raise HoursError(f"{text.strip()} runs backwards; past midnight, write two stretches.")
    return since, until


def parse_end(text: str) -> int:
    """`22:00`, `2200`, `22` or `10pm` as minutes since midnight, at most 24:00. Raises HoursError."""
    match = re.fullmatch(CLOCK, text.strip(), re.ASCII | re.IGNORECASE)
    if not match:
        raise HoursError(f"Write a time such as 22:00, not {text.strip()[:20]!r}.")
    end = parse_clock(match[1], match[2], match[3])
    return MIDNIGHT if match[3] and not end else end


def check_apart(stretches: list[Stretch]) -> None:
    """Raise HoursError when two stretches of a day overlap."""
    ordered = sorted(stretches)
    for one, two in pairwise(ordered):
        if one.weekday == two.weekday and two.since < one.until:
            raise HoursError(
                f"{DAYS[one.weekday]} {minute_words(one.since)}-{minute_words(one.until)} and"
                f" {minute_words(two.since)}-{minute_words(two.until)} overlap."
            )


def parse_day(weekday: int, text: str) -> list[Stretch]:
    """One day's line, stretches divided by commas; an empty line is a day without hours."""
    stretches = [Stretch(weekday, *parse_stretch(part)) for part in text.split(",") if part.strip()]
    check_apart(stretches)
    return sorted(stretches)


def weekday_words(stretches: list[Stretch], weekday: int) -> str:
    """What `parse_day` reads back as the same stretches."""
    return ", ".join(
        f"{minute_words(stretch.since)}-{minute_words(stretch.until)}"
        for stretch in sorted(stretches)
        if stretch.weekday == weekday
    )


def week_words(stretches: list[Stretch]) -> str:
    """The week in a line, days with the same hours together."""
    days: dict[str, list[str]] = defaultdict(list)
    for weekday, name in enumerate(DAYS):
        words = weekday_words(stretches, weekday)
        if words:
            days[words].append(name)
    return "; ".join(f"{', '.join(names)} {words}" for words, names in days.items())
