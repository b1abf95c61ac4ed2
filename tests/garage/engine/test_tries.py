"""How long somebody waits: the last free try and the one after it, doubled up to the most, forgotten in time."""

from garage.engine.tries import Backoff, seconds_to_wait

RULE = Backoff("try", free=5, first=60, most=900, forget=600)


def test_the_first_five_cost_nothing():
    assert [seconds_to_wait(RULE, count, 0) for count in (0, 4, 5)] == [0, 0, 60]


def test_each_that_is_counted_doubles_the_wait_up_to_the_most():
    assert [seconds_to_wait(RULE, count, 0) for count in (5, 6, 7, 8, 9, 99)] == [60, 120, 240, 480, 900, 900]


def test_what_has_passed_is_waited_already():
    assert [seconds_to_wait(RULE, 5, quiet) for quiet in (0.5, 59, 59.5, 60, 61)] == [60, 1, 1, 0, 0]


def test_after_ten_quiet_minutes_it_begins_anew():
    assert [seconds_to_wait(RULE, 99, quiet) for quiet in (599, 600)] == [301, 0]
