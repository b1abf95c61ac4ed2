"""Minutes spent and left of a job."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace

import pytest

from builds.work.engine.open_work import Work
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


@pytest.mark.parametrize(
    ("state", "finished", "spans", "rests", "put_down"),
    [
        ("open", None, 0, True, False),
        ("open", None, 1, True, True),  # worked on, and opened again
        ("waiting", None, 1, True, True),
        ("in_hand", None, 1, False, False),
        ("held", AT, 1, False, False),  # over, and waits for a look
        ("held", None, 1, True, True),
    ],
)
def test_work_rests_while_there_is_more_to_do_than_look(state, finished, spans, rests, put_down):
    job = SimpleNamespace(pk=1, state=state, finished_at=finished)
    work = Work(None, AT, {1: job}, {}, (), {1: [None] * spans}, {}, None)
    assert (work.rests(1), work.put_down(1)) == (rests, put_down)
