"""Unified designations: 1/2-20 UNF-2A, 7/16-20, #10-32, 5/16"-18 UNC 2B LH."""

import re
from fractions import Fraction

from parts.engine.fit.metric import HAND, LEFT, RIGHT
from parts.engine.fit.numbers import INCH, FitError, number, plain
from parts.engine.fit.thread import EXTERNAL, INTERNAL, UNIFIED, Thread, inches

# Threads per inch by size. Source: ASME B1.1, from memory.
_COARSE = """#1 64,#2 56,#3 48,#4 40,#5 40,#6 32,#8 32,#10 24,#12 24,1/4 20,5/16 18,3/8 16,7/16 14,
1/2 13,9/16 12,5/8 11,3/4 10,7/8 9,1 8,9/8 7,5/4 7,11/8 6,3/2 6"""
_FINE = """#0 80,#1 72,#2 64,#3 56,#4 48,#5 44,#6 40,#8 36,#10 32,#12 28,1/4 28,5/16 24,3/8 24,
7/16 20,1/2 20,9/16 18,5/8 18,3/4 16,7/8 14,1 12,9/8 12,5/4 12,11/8 12,3/2 12"""
SIZE = r"(?:[0-9][ -])?[0-9]{1,2}/[0-9]{1,2}|(?:no\.?\s?|#\s?)?[0-9]{1,2}(?![0-9/])"
HEAD = re.compile(
    rf"({SIZE})\s?(\"|''|in\b|inch\b)?(?:\s?[-xX]\s?|\s)?([0-9]{{1,2}})?(?![0-9./])",
    re.IGNORECASE,
)
SERIES = re.compile(r"UNJ?(?:C|F|EF|S)?", re.IGNORECASE)
CLASS = re.compile(r"([123])([ABab])")
# A bare whole number is a size by number when its threads are this fine, else inches.
BY_NUMBER_FROM = 24


def _size(text: str) -> Fraction:
    """Inches of #10, 7/16 or 1 1/8."""
    if text.startswith("#"):
        return Fraction(60 + 13 * int(text[1:]), 1000)
    return number(text)


SERIES_PITCH = {
    series: {_size(size): int(count) for size, count in (pair.split() for pair in rows.split(","))}
    for series, rows in (("UNC", _COARSE), ("UNF", _FINE))
}


def parse_unified(text: str) -> Thread:
    """The thread of a designation that was tidied; FitError says what cannot be read.

    Form `<size>-<threads per inch> [UNC|UNF|…][-2A|2B][-LH]`; A is a bolt, B a nut. Source: ASME
    B1.1, from memory.
    """
    head = HEAD.match(text)
    if head is None:
        raise FitError(f"“{text}” is no unified thread: write one such as 1/2-20 UNF.")
    series = tolerance = side = ""
    left = False
    for token in (token for token in re.split(r"[-\s]+", text[head.end() :]) if token):
        low = token.lower().replace(".", "")
        if SERIES.fullmatch(token) and not series:
            series = token.upper()
        elif (match := CLASS.fullmatch(token)) and not tolerance:
            tolerance, side = token.upper(), EXTERNAL if match[2] in "Aa" else INTERNAL
        elif low in LEFT:
            left = True
        elif low not in RIGHT | HAND:
            raise FitError(f"“{token}” in “{text}” is neither UNC, UNF, 2A, 2B nor LH.")
    size, count = _numbers(head, series, text)
    return Thread(UNIFIED, size * INCH, INCH / count, left=left, side=side, tolerance=tolerance, series=series)


def _numbers(head: re.Match[str], series: str, text: str) -> tuple[Fraction, int]:
    """Inches and threads per inch; the series may say what was left out, never contradict."""
    written = re.sub(r"(?i)^(no\.?|#)\s?", "#", head[1]).replace("-", " ")
    count = int(head[3]) if head[3] else 0
    if written.isdecimal() and not head[2] and count >= BY_NUMBER_FROM:
        written = f"#{written}"
    size = _size(written)
    if written.startswith("#") and int(written[1:]) > 12:
        raise FitError(f"There is no size {written}: sizes by number end at #12.")
    if not 0 < size <= 6 or (not written.startswith("#") and 64 % size.denominator):
        raise FitError(f"“{written}” is no size in inches: write one such as 7/16 or 1 1/8.")
    known = SERIES_PITCH.get(series.replace("J", ""), {}).get(size)
    count = count or known or 0
    if count < 3:
        raise FitError(f"“{text}” lacks its threads per inch: write one such as 1/2-20.")
    if known and known != count:
        raise FitError(f"{inches(size)} {series} has {known} threads per inch, not {plain(count)}.")
    if Fraction(2, count) > size:
        raise FitError(f"{count} threads per inch do not go with {inches(size)}.")
    return size, count
