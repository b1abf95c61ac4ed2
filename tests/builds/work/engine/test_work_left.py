"""Minutes spent and left of a job."""

from datetime import UTC, datetime, timedelta

from builds.work.engine.work_left import left_of, minutes_between

AT = datetime(2027, 3, 2, 20, 0, tzinfo=UTC)


def test_a_running_stretch_counts_until_now():
    stretches = [
        (AT - timedelta(hours=3), AT - timedelta(hours=2)),
        (AT - timedelta(minutes=20), None),
    ]
    assert minutes_between(stretches, AT) == 80


def test_a_stretch_that_begins_later_counts_nothing():
    assert minutes_between([(AT + timedelta(hours=1), None)], AT) == 0


def test_left_is_likely_less_spent_and_never_below_a_quarter_of_an_hour():
    assert (left_of(120, 50), left_of(60, 300)) == (70, 15)


def test_what_was_put_down_by_hand_wins_and_runs_down_while_worked_on():
    assert (left_of(60, 300, 120), left_of(60, 300, 120, 45)) == (120, 75)
