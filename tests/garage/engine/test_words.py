"""Amounts of time in words, and words read back: each bound and the value beside it."""

import pytest

from garage.engine.words import (
    duration_words,
    listed_in_words,
    parse_duration,
    seen_text,
    wait_words,
    work_words,
)


def test_names_are_listed_as_a_sentence_lists_them():
    lists = [["A"], ["A", "B"], ["A", "B", "C"]]
    assert [listed_in_words(names) for names in lists] == ["A", "A and B", "A, B and C"]
    assert listed_in_words(["A", "B", "C"], last="or") == "A, B or C"
    with pytest.raises(ValueError):
        listed_in_words([])


@pytest.mark.parametrize(
    ("minutes", "passes", "works"),
    [
        (0, "0 min", "0 min"),
        (59, "59 min", "59 min"),
        (60, "1 h", "1 h"),
        (61, "1 h 01", "1 h 01"),
        (195, "3 h 15", "3 h 15"),
        (48 * 60 - 1, "47 h 59", "47 h 59"),
        (48 * 60, "2 d", "48 h"),
        (49 * 60 + 30, "2 d 1 h", "49 h 30"),
    ],
)
def test_minutes(minutes, passes, works):
    assert (duration_words(minutes), work_words(minutes)) == (passes, works)


def test_a_wait_is_seconds_below_a_minute_and_else_minutes_rounded_up():
    said = {0: "0 seconds", 1: "1 second", 2: "2 seconds", 59: "59 seconds", 60: "1 minute", 61: "2 minutes",
            120: "2 minutes", 121: "3 minutes"}  # fmt: skip
    assert {seconds: wait_words(seconds) for seconds in said} == said


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [
        ("0", 0), ("1", 60), ("1.5", 90), ("1,5", 90), ("1:30", 90), ("0:59", 59), ("2:00", 120), ("90 min", 90),
        ("90m", 90), ("2 h", 120), ("1 h 30", 90), ("1h30min", 90), ("1.5 h 10", 100), (" 1 HOUR ", 60),
        ("100:00", 6000),
    ],
)  # fmt: skip
def test_a_time_is_read(typed, minutes):
    assert parse_duration(typed) == minutes


@pytest.mark.parametrize("typed", ["", " ", "h", "1:60", "1:5", "-1", "one", "1 h 30 s", "1.5.2", "1234567"])
def test_what_is_no_time_is_refused(typed):
    with pytest.raises(ValueError, match="Write a time such as"):
        parse_duration(typed)


def test_what_only_hides_is_not_there():
    assert [seen_text(text) for text in ("Arm", "\u200bArm\u202e", "\u200b", "\u200d", "\u200c \u200d")] == [
        "Arm", "Arm", "", "", " ",
    ]  # fmt: skip
    assert seen_text("a\tb\nc\0") == "a\tb\nc\0"
