"""The four digits that end a tyre's code: week and year of its making."""

from datetime import date, timedelta

WEEK = timedelta(days=7)


def _parts(code: str) -> tuple[int, int]:
    code = code.strip()
    if not (code.isascii() and code.isdigit()):
        raise ValueError("Write the last four digits of the tyre's code, such as 2319.")
    if len(code) == 3:
        raise ValueError("Three digits are a tyre from before 2000: its decade cannot be read.")
    if len(code) != 4:
        raise ValueError("Write the last four digits of the tyre's code, such as 2319.")
    week, year = int(code[:2]), 2000 + int(code[2:])
    if not 1 <= week <= 53:
        raise ValueError(f"There is no week {code[:2]}: a tyre's code begins with 01 to 53.")
    return week, year


def _thursday(code: str) -> date:
    """Thursday of the week as ISO 8601 counts it, which always lies in the code's year."""
    week, year = _parts(code)
    fourth = date(year, 1, 4)  # always in week 1, ISO 8601
    monday = fourth - timedelta(days=fourth.weekday())
    return min(monday + (week - 1) * WEEK + timedelta(days=3), date(year, 12, 31))


def code_month(code: str) -> date:
    """The first day of the month that a code means: `2319` is 1 June 2019.

    Weeks are counted in more ways than one, so no day is claimed. ValueError with one sentence
    for anything that is not a week from 01 to 53 and two digits of a year from 2000 on.
    Source: 49 CFR 574.5, from memory; ISO 8601 for the week.
    """
    return _thursday(code).replace(day=1)


def week_spans(code: str) -> tuple[tuple[date, date], ...]:
    """First and last day of the week by each way of counting weeks.

    From Sunday, week 1 holding 1 January; from Monday, week 1 holding 4 January (ISO 8601); from
    Sunday, week 1 the first full week of the year (a maker's handbook). ValueError as above.
    """
    week, year = _parts(code)
    new_year, fourth = date(year, 1, 1), date(year, 1, 4)
    back = (new_year.weekday() + 1) % 7  # days since Sunday
    around = new_year - timedelta(days=back)
    iso = fourth - timedelta(days=fourth.weekday())
    full = around if back == 0 else around + WEEK
    return tuple(
        (first + (week - 1) * WEEK, first + (week - 1) * WEEK + timedelta(days=6)) for first in (around, iso, full)
    )


def age_years(code: str, day: date) -> float:
    """Years of 365.25 days from the middle of its week; ValueError for a code that is none."""
    return (day - _thursday(code)).days / 365.25
