"""Odds in words: a share never sounds surer than the runs were."""

import pytest

from builds.odds import words
from builds.odds.answer import JobOdds, VehicleOdds, wilson


def car(in_time, runs):
    return VehicleOdds("heron", runs, in_time, (1.0,) * runs, ())


@pytest.mark.parametrize(
    ("count", "runs", "said"),
    [
        (0, 1000, "not once in 1,000"),
        (1, 1000, "less than once in 10"),
        (49, 1000, "less than once in 10"),
        (50, 1000, "once out of 10"),
        (820, 1000, "8 times out of 10"),
        (850, 1000, "9 times out of 10"),
        (949, 1000, "9 times out of 10"),
        (950, 1000, "more than 9 times out of 10"),
        (999, 1000, "more than 9 times out of 10"),
        (1000, 1000, "1,000 times out of 1,000"),
        (1, 1, "once out of 1"),
    ],
)
def test_shares_in_tens(count, runs, said):
    assert words.in_tens(count, runs) == said


@pytest.mark.parametrize(("count", "runs"), [(0, 0), (-1, 5), (6, 5)])
def test_a_share_of_no_runs_or_of_too_many_is_refused(count, runs):
    with pytest.raises(ValueError, match="count"):
        words.in_tens(count, runs)


@pytest.mark.parametrize(
    ("count", "said"),
    [(0, 0), (1, 1), (4, 1), (5, 1), (824, 82), (825, 83), (999, 99), (1000, 100)],
)
def test_per_cent_are_0_and_100_only_for_none_and_all(count, said):
    assert words.percent(count, 1000) == said


def test_ready_in_time_with_its_band():
    assert words.in_time(car(820, 1000)) == (
        "Ready in time 8 times out of 10 (82 %, 79 to 85 as far as so many can tell)."
    )
    assert words.in_time(car(0, 0)) == "Not worked out yet."
    assert words.in_time(car(None, 10)) == ""


@pytest.mark.parametrize("count", [0, 1, 500, 999, 1000])
def test_the_band_in_words_holds_the_band(count):
    low, high = wilson(count, 1000)
    said = words.in_time(car(count, 1000)).split("%, ")[1].split(" as")[0]
    first, then = (int(figure) / 100 for figure in said.split(" to "))
    assert first <= low <= high <= then


def test_what_a_job_did():
    assert words.held_up(JobOdds("fit", 1000, 590), "Heron") == "Held Heron up 6 times out of 10."
    assert words.held_up(JobOdds("fit", 0, 0), "Heron") == ""


@pytest.mark.parametrize(
    ("share", "said"),
    [(1, "makes it"), (0.8, "makes it"), (0.799, "touch and go"), (0.2, "touch and go"), (0.199, "will not make it")],
)
def test_a_car_makes_it_from_8_of_10_runs_and_will_not_below_2(share, said):
    assert words.verdict(share) == said


def test_the_outlook_is_led_by_the_odds():
    assert words.outlook(car(900, 1000), "Thu 20:30", 195) == (
        "Makes it: in time 900 times out of 1,000, and 8 times out of 10 ready by Thu 20:30; "
        "there is time for 3 h 15 more work."
    )
    assert words.outlook(car(900, 1000), "Thu 20:30", 0).endswith("; there is no time for more work.")
    assert words.outlook(car(500, 1000), "Sat 20:30", 60) == (
        "Touch and go: in time 500 times out of 1,000, and 8 times out of 10 ready by Sat 20:30."
    )
    assert words.outlook(car(100, 1000), "Sat 20:30", 60).endswith("8 times out of 10 ready by Sat 20:30.")
    assert words.outlook(car(900, 1000), "Thu 20:30", 60, but_for=True).startswith(
        "Its work makes it: in time 900 times"
    )
    assert words.outlook(car(500, 1000), "Thu 20:30", 60, but_for=True).startswith("Touch and go: ")
    assert words.outlook(car(0, 1000), None, None) == "Will not make it: in time not once in 1,000."


def test_a_plan_that_has_it_ready_on_another_day_is_told_beside():
    beside = words.beside_the_plan("Wed 19:00")
    assert words.outlook(car(900, 1000), "Thu 20:30", 60, beside=beside) == (
        "Makes it: in time 900 times out of 1,000, and 8 times out of 10 ready by Thu 20:30 (by the plan Wed 19:00); "
        "there is time for 1 h more work."
    )


def test_without_runs_or_a_due_slot_the_outlook_promises_nothing():
    assert words.outlook(car(0, 0), None, 60) == "Not known: not worked out yet."
    assert words.outlook(car(None, 10), "Thu 20:30", 60) == ""


@pytest.mark.parametrize(("minutes", "said"), [(0, "0 min"), (45, "45 min"), (60, "1 h"), (3000, "50 h")])
def test_more_work_is_said_in_hours_and_never_in_days(minutes, said):
    assert words.work_words(minutes) == said


@pytest.mark.parametrize(
    ("count", "runs", "said"),
    [
        (0, 1000, "not once in 1,000"),
        (69, 77, "69 times out of 77"),
        (1, 1, "once out of 1"),
        (999, 1000, "999 times out of 1,000"),
    ],
)
def test_runs_are_counted_as_they_are(count, runs, said):
    assert words.counted(count, runs) == said
