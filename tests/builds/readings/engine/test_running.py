"""What running changes is not known from the first run later than the moment it was measured."""

from datetime import timedelta

import pytest

from builds.readings.engine import READINGS
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.running import RUNNING_CHANGES
from builds.readings.engine.void import FinishedWork, TakenReading, standings
from builds.work.engine.running import Run, run_since
from tests.factories import NOW

HOUR = timedelta(hours=1)
SECOND = timedelta(seconds=1)


def test_the_first_later_run_counts_and_the_moment_itself_is_after_it():
    told, untold = Run("Kiln Lane", NOW, told=True), Run("Saltmarsh", NOW + HOUR, told=False)
    assert run_since(NOW - SECOND, [untold, told]) == told
    assert run_since(NOW, [untold, told]) == untold
    assert run_since(NOW + HOUR, [untold, told]) is None
    assert run_since(NOW, []) is None


def test_what_was_done_in_a_run_counts_from_its_end_and_while_that_is_to_come_from_nothing():
    over = Run("Kiln Lane", NOW, told=True, until=NOW + HOUR)
    assert run_since(NOW - SECOND, [over]) == over
    assert run_since(NOW, [over]).since == run_since(NOW + HOUR - SECOND, [over]).since == NOW + HOUR
    assert run_since(NOW + HOUR, [over]) is None
    assert run_since(NOW, [Run("Kiln Lane", NOW, told=True)]) is None
    assert Run("Kiln Lane", NOW, told=True, until=NOW - HOUR).last == NOW


def test_a_drive_lapses_what_was_read_before_its_end_but_for_its_own_last_act():
    drive = Run("Shake-down", NOW, told=True, job=7)
    for last_of, before, state in (
        (None, SECOND, "ran"),
        (7, HOUR / 2, "stands"),
        (7, HOUR, "ran"),
        (8, SECOND, "ran"),
    ):
        taken = {"wheel_torque": TakenReading(NOW - before, last_of)}
        assert standings(taken, [], [drive])["wheel_torque"].state == state


@pytest.mark.parametrize(("begun", "state"), [(NOW - HOUR / 2, "stands"), (NOW - HOUR / 4, "ran"), (None, "stands")])
def test_hands_that_went_to_a_drive_again_take_its_last_act(begun, state):
    drive = Run("Shake-down", NOW, told=True, job=7, begun=begun)
    taken = {"wheel_torque": TakenReading(NOW - HOUR / 2, 7)}
    assert standings(taken, [], [drive])["wheel_torque"].state == state


def test_a_reading_of_a_day_to_come_is_ahead_whatever_was_done():
    taken = {"camber": TakenReading(NOW + HOUR, ahead=True), "toe_front": TakenReading(NOW)}
    work = FinishedWork(1, "Caster", ("caster",), NOW + 2 * HOUR)
    found = standings(taken, [work])
    assert (found["camber"].state, found["toe_front"].state) == ("ahead", "void")


def test_of_two_at_one_moment_the_one_that_is_told_counts():
    told, untold = Run("Kiln Lane", NOW, told=True), Run("Saltmarsh", NOW, told=False)
    assert run_since(NOW - HOUR, [untold, told]) == run_since(NOW - HOUR, [told, untold]) == told


def test_all_that_a_first_session_makes_void_is_changed_by_running():
    """Rule 36: wheel nuts, jam nuts, leaks, hot pressures, belts; common practice, no source."""
    assert KINDS["first_run"].voids <= RUNNING_CHANGES <= set(READINGS)
    assert {"bearing_play", "fluid_levels"} <= RUNNING_CHANGES
    assert not RUNNING_CHANGES & {"camber", "caster", "toe_front", "toe_rear", "corner_weights"}


@pytest.mark.parametrize("kind", sorted(READINGS))
def test_a_run_lapses_what_it_changes_and_nothing_else(kind):
    run = Run("Kiln Lane", NOW, told=False)
    found = standings({kind: TakenReading(NOW - HOUR)}, [], [run])[kind]
    assert (found.state, found.run) == (("ran", run) if kind in RUNNING_CHANGES else ("stands", None))
    assert standings({kind: TakenReading(NOW)}, [], [run])[kind].state == "stands"


def test_work_that_made_it_void_is_said_before_the_run():
    work = FinishedWork(1, "Wheels off", ("wheel_off",), NOW)
    taken = {"wheel_torque": TakenReading(NOW - HOUR)}
    assert standings(taken, [work], [Run("Kiln Lane", NOW - SECOND, told=True)])["wheel_torque"].state == "void"


def test_older_than_allowed_by_a_second_is_old_and_on_the_edge_stands():
    taken = {"camber": TakenReading(NOW), "toe_front": TakenReading(NOW)}
    found = standings(taken, [], not_before={"camber": NOW, "toe_front": NOW + SECOND})
    assert (found["camber"].state, found["toe_front"].state) == ("stands", "old")
    assert standings({"camber": None}, [], not_before={"camber": NOW})["camber"].state == "missing"
