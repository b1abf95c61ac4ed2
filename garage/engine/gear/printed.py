"""A date as a label prints it: a day, a month, a year, or a tyre's week."""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date

from garage.engine.gear.tyre_code import code_month
from garage.engine.moments import date_words

FIRST_YEAR, LAST_YEAR = 1980, 2100
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
SAID = "Write the date as the label does: 2024-03-15, March 2024, 03/2024 or 2024."


@dataclass(frozen=True, slots=True)
class Printed:
    """`on` is the first day of what is printed; `precision` is day, month, year or week.

    A tyre's week counts as the month it lies in; `code` keeps its digits.
    """

    on: date
    precision: str
    code: str = ""

    @property
    def last(self) -> date:
        """The last day of what is printed."""
        if self.precision == "day":
            return self.on
        if self.precision == "year":
            return date(self.on.year, 12, 31)
        return end_of_month(self.on)


def end_of_month(day: date) -> date:
    return day.replace(day=monthrange(day.year, day.month)[1])


def _checked(year: int, month: int, day: int) -> date:
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise ValueError(f"A year between {FIRST_YEAR} and {LAST_YEAR}.")
    try:
        return date(year, month, day)
    except ValueError as wrong:
        raise ValueError("There is no such day.") from wrong


def printed_from(text: str, *, tyre: bool = False) -> Printed:
    """What somebody typed off a label; ValueError with one sentence when it is no date.

    Understood: `2024-03-15`, `15 March 2024`, `2024-03`, `03/2024`, `Mar 2024`, `2024`, and for a
    tyre its last four digits. A day and a month in figures alone are not guessed at.
    """
    words = text.strip().lower()
    if tyre:
        return Printed(code_month(words), "week", words)
    if not words.isascii():
        raise ValueError(SAID)
    if match := re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", words):
        return Printed(_checked(*map(int, match.groups())), "day")
    if match := re.fullmatch(r"(\d{1,2}) ([a-z]{3,9})\.? (\d{4})", words):
        return Printed(_checked(int(match[3]), _month(match[2]), int(match[1])), "day")
    if match := re.fullmatch(r"(\d{4})-(\d{1,2})", words):
        return Printed(_checked(int(match[1]), int(match[2]), 1), "month")
    if match := re.fullmatch(r"(\d{1,2})[/.](\d{4})", words):
        return Printed(_checked(int(match[2]), int(match[1]), 1), "month")
    if match := re.fullmatch(r"([a-z]{3,9})\.? (\d{4})", words):
        return Printed(_checked(int(match[2]), _month(match[1]), 1), "month")
    if re.fullmatch(r"\d{4}", words):
        return Printed(_checked(int(words), 1, 1), "year")
    raise ValueError(SAID)


def _month(word: str) -> int:
    if word[:3] not in MONTHS:
        raise ValueError(SAID)
    return MONTHS.index(word[:3]) + 1


def printed_words(printed: Printed) -> str:
    """`15 March 2024`, `March 2024`, `2024`, or `June 2019 (2319)`."""
    if printed.precision == "day":
        return date_words(printed.on)
    if printed.precision == "year":
        return f"{printed.on.year}"
    return f"{printed.on:%B %Y}{f' ({printed.code})' if printed.code else ''}"
