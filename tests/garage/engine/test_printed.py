"""Dates as labels print them: each way, the first and the last year, and what is none."""

from datetime import date

import pytest

from garage.engine.gear.printed import SAID, Printed, printed_from, printed_words


@pytest.mark.parametrize(
    ("typed", "on", "precision", "last", "words"),
    [
        ("2024-03-15", date(2024, 3, 15), "day", date(2024, 3, 15), "15 March 2024"),
        ("15 mar. 2024", date(2024, 3, 15), "day", date(2024, 3, 15), "15 March 2024"),
        ("2024-02", date(2024, 2, 1), "month", date(2024, 2, 29), "February 2024"),
        ("2/2023", date(2023, 2, 1), "month", date(2023, 2, 28), "February 2023"),
        ("12.2024", date(2024, 12, 1), "month", date(2024, 12, 31), "December 2024"),
        ("January 2024", date(2024, 1, 1), "month", date(2024, 1, 31), "January 2024"),
        (" 1980 ", date(1980, 1, 1), "year", date(1980, 12, 31), "1980"),
        ("2100", date(2100, 1, 1), "year", date(2100, 12, 31), "2100"),
    ],
)
def test_what_is_printed(typed, on, precision, last, words):
    printed = printed_from(typed)
    assert (printed, printed.last, printed_words(printed)) == (Printed(on, precision), last, words)


@pytest.mark.parametrize("typed", ["", "soon", "Foo 2024", "15 foo 2024", "03/15/2024", "15.03.2024", "２０２４"])
def test_what_is_no_date_is_told_how_to_write_one(typed):
    with pytest.raises(ValueError) as refused:
        printed_from(typed)
    assert str(refused.value) == SAID


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("1979", "A year between 1980 and 2100."),
        ("2101", "A year between 1980 and 2100."),
        ("2023-02-29", "There is no such day."),
        ("13/2024", "There is no such day."),
    ],
)
def test_what_cannot_be_is_said(typed, said):
    with pytest.raises(ValueError) as refused:
        printed_from(typed)
    assert str(refused.value) == said
