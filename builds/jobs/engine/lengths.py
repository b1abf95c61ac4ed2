"""How long a job takes, as somebody writes it in a line: one length, or from one to another."""

import re
from dataclasses import dataclass
from fractions import Fraction

from garage.engine.words import parse_duration

_HOURS, _MINUTES = r"(?:hours?|hrs?|h)", r"(?:minutes?|mins?)"
# Alone a letter m could be metres: `2 m` of cable.
ONE = (
    rf"\d+(?:[.,]\d+)?\s*{_HOURS}(?:\s*\d{{1,2}}(?:\s*(?:{_MINUTES}|m))?)?"
    rf"|\d+\s*{_MINUTES}|\d{{2,3}}m|\d{{1,2}}:\d\d"
)
LENGTH = rf"(?:\d+(?:[.,]\d+)?\s*(?:{_HOURS}|{_MINUTES})?\s*(?:[-–—]|to(?=\s))\s*)?(?:{ONE})"
_FROM_TO = re.compile(rf"(\d+(?:[.,]\d+)?)\s*({_HOURS}|{_MINUTES})?\s*(?:[-–—]|to\s)\s*({ONE})", re.IGNORECASE)
_PARTS = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}
_BROKEN = re.compile(
    rf"(?<![\w/.,])(?:(\d{{1,3}})\s*)??(?:([½¼¾])|(?<!\d)([13])/([24]))(?=\s*{_HOURS}(?![a-z]))", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Length:
    """In minutes; `least` and `most` where both were written, else None."""

    likely: int
    least: int | None = None
    most: int | None = None


def in_decimals(words: str) -> str:
    """`½ h` as `0.5 h`, `1 1/2 h` as `1.5 h`; all else as it is."""
    return _BROKEN.sub(_decimal, words)


def _decimal(broken: re.Match[str]) -> str:
    whole, sign, over, under = broken.groups()
    part = _PARTS[sign] if sign else Fraction(int(over), int(under))
    return str(float(int(whole or 0) + part))


def length_of(words: str) -> Length:
    """Of what `LENGTH` matches, or a bare number of hours. ValueError with one sentence for anything else."""
    words = in_decimals(words.strip())
    both = _FROM_TO.fullmatch(words)
    if both is None:
        return Length(_minutes(words))
    number, unit, last = both.groups()
    most = _minutes(last)
    hours = re.fullmatch(rf"{_HOURS}|", unit or "") and not (unit is None and re.search(_MINUTES, last))
    least = _minutes(f"{number} h" if hours or ":" in last else f"{number} min")
    if least >= most:
        return Length(most)
    return Length((least + most) // 2, least, most)


def _minutes(words: str) -> int:
    tidy = re.sub(rf"\s*{_HOURS}(?![a-z])", " h", words, flags=re.IGNORECASE)
    return parse_duration(re.sub(rf"\s*(?:{_MINUTES}|m)$", " min", tidy, flags=re.IGNORECASE))
