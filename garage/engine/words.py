"""Lists in words, amounts of time in words, and words read back as amounts of time."""

import re
import unicodedata
from collections.abc import Iterable

CLOCK = re.compile(r"(\d{1,4}):([0-5]\d)", re.ASCII)
PARTS = re.compile(
    r"(?:(\d{1,6}(?:[.,]\d{1,4})?)\s*(?:h|hr|hrs|hour|hours))?\s*"
    r"(?:(\d{1,6})\s*(?:m|min|mins|minute|minutes)?)?",
    re.ASCII | re.IGNORECASE,
)
PLAIN = re.compile(r"\d{1,6}(?:[.,]\d{1,4})?", re.ASCII)
HIDDEN = {"Cc", "Cf", "Cs"}
# Letters of some scripts, and pictures of several parts, are put together with these two.
JOINERS = "\u200c\u200d"
KEPT = f"\0\t\r\n{JOINERS}"


def seen_text(text: str) -> str:
    """The text as it is seen: without controls that hide in it or turn it round; empty where nothing is seen.

    What goes are the Unicode categories Cc (but tab and line ends), Cf (but the joiners) and Cs. NUL stays, for
    the field that refuses it to do so. Source: UAX #44, General_Category; UTR #36, bidirectional spoofing.
    """
    if text.isprintable():
        return text
    kept = "".join(sign for sign in text if sign in KEPT or unicodedata.category(sign) not in HIDDEN)
    without_joiners = kept.replace(JOINERS[0], "").replace(JOINERS[1], "")
    return kept if without_joiners.strip() else without_joiners


def listed_in_words(names: Iterable[str], last: str = "and") -> str:
    """Names as a sentence lists them: `A`, `A and B`, `A, B and C`. ValueError for none at all."""
    *others, final = names
    return f"{', '.join(others)} {last} {final}" if others else final


def duration_words(minutes: int) -> str:
    """Minutes that pass as `45 min`, `2 h`, `2 h 30`; more than two days as `3 d 4 h`."""
    hours = minutes // 60
    if hours < 48:
        return work_words(minutes)
    days, hours = divmod(hours, 24)
    return f"{days} d {hours} h" if hours else f"{days} d"


def work_words(minutes: int) -> str:
    """Minutes that hands work as `45 min`, `2 h`, `2 h 30`, `78 h`: never days, which are longer than evenings."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


def wait_words(seconds: int) -> str:
    """Seconds as `12 seconds` or, rounded up, `4 minutes`."""
    if seconds < 60:
        return f"{seconds} second{'s' if seconds != 1 else ''}"
    minutes = -(-seconds // 60)
    return f"{minutes} minute{'s' if minutes != 1 else ''}"


def parse_duration(text: str) -> int:
    """Whole minutes from `1.5`, `1,5` (hours), `1:30`, `90 min`, `1 h 30`.

    A bare number is hours. Raises ValueError with one sentence for anything else.
    """
    tidy = text.strip().lower()
    clock = CLOCK.fullmatch(tidy)
    if clock:
        return int(clock[1]) * 60 + int(clock[2])
    if PLAIN.fullmatch(tidy):
        return round(float(tidy.replace(",", ".")) * 60)
    parts = PARTS.fullmatch(tidy)
    if tidy and parts and (parts[1] or parts[2]):
        hours = float((parts[1] or "0").replace(",", "."))
        return round(hours * 60) + int(parts[2] or 0)
    raise ValueError("Write a time such as 1.5, 1:30, 90 min or 1 h 30.")
