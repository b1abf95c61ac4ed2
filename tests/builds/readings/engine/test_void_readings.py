"""Readings that no longer hold: the trade's matrix cross by cross, and readings on readings."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from builds.readings.engine import READINGS
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.void import GOES_ON, LAST_ACT, FinishedWork, TakenReading, standings, to_measure, void_by

THEN = datetime(2027, 3, 2, 18, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
COLUMNS = [
    *("ride_height", "corner_weights", "camber", "caster", "toe_front", "toe_rear"),
    *("bump_steer", "lock_clearance", "brake_bleed", "wheel_torque", "cg_height"),
]
# Which work marks which reading stale, as the trade's table has it; "h" is the hose's clearance, not
# the tyre's. Common practice, no source.
TABLE = """
    spring_change       x x x x x x . x . x x
    tyre_or_pressure    x x x . x x . x . x x
    mass_moved          x x x . x x . . . . x
    bar_preload         x x . . . . . x . . .
    camber_front        x x x x x . x x . x .
    rear_link           x x x . x x x . . x .
    caster              x x x x x . x x . x .
    steering_arm        . . . . x . x x . x .
    bushing_or_mount    x x x x x x x x . x .
    chassis_weld        x x x x x x x x . . x
    wheel_off           . . . . . . . . . x .
    wheel_or_spacer     . x x . x . . x . x .
    hydraulics_opened   . . . . . . . h x x .
    mass_unit_moved     x x x . x x . . . . x
    crash               x x x x x x x x x x x
"""
# What the trade says besides its table. A rack spacer stands in the table's row of the steering arm
# and eats thread; trimming leaves bump steer standing. Common practice, no source.
BESIDES = """
    rack_spacer  toe_front bump_steer lock_clearance wheel_torque
    rack_spacer  thread_engagement jam_nuts joint_torque
    rack_moved   lock_clearance toggle_check
    crash        fuel_leak throttle_return master_switch extinguisher thread_engagement
    front_trim   ride_height corner_weights camber caster toe_front lock_clearance wheel_torque
    rear_trim    ride_height corner_weights camber toe_front toe_rear wheel_torque
    brake_vacuum pedal_travel
    clutch_line  fluid_levels leak_check
"""
ROWS = [line.split() for line in TABLE.strip().split("\n")]
CELLS = [(row[0], reading, mark) for row in ROWS for reading, mark in zip(COLUMNS, row[1:], strict=True)]
IN_TABLE = [(kind, "hose_check" if mark == "h" else reading) for kind, reading, mark in CELLS if mark != "."]
CROSSES = IN_TABLE + [
    (kind, reading)
    for kind, *readings in (line.split() for line in BESIDES.strip().split("\n"))
    for reading in readings
]
# What the trade leaves standing directly, and nothing below it in the order of measuring takes away
UNTOUCHED = [
    (kind, reading)
    for kind, reading, mark in CELLS
    if mark == "." and reading in ("ride_height", "bump_steer", "brake_bleed", "wheel_torque")
] + [
    ("hydraulics_opened", "lock_clearance"),
    ("hydraulics_opened", "toggle_check"),
    ("steering_arm", "thread_engagement"),
    ("steering_arm", "jam_nuts"),
    ("front_trim", "bump_steer"),
    ("rear_trim", "bump_steer"),
    ("clutch_line", "brake_bleed"),
]
# Work that says how far the car may be or has been run, or that only wants a caution: no reading goes.
VOIDS_NOTHING = ("engine_run", "driven", "hot_work", "glass_bonding", "glued", "two_pack")


def work(kind, ended=THEN + HOUR, **more):
    return FinishedWork(1, f"Some {kind}", (kind,), ended, **more)


def test_the_table_has_every_cross_of_the_trade():
    assert len(IN_TABLE) == len(set(IN_TABLE)) == 97
    assert len(CROSSES) == len(set(CROSSES))


def test_work_finished_afterwards_voids():
    for kind, reading in CROSSES:
        done = work(kind)
        assert void_by(reading, TakenReading(THEN), [done]) == done, (kind, reading)
        assert void_by(reading, TakenReading(THEN + 2 * HOUR), [done]) is None, (kind, reading)


@pytest.mark.parametrize(("kind", "reading"), UNTOUCHED)
def test_other_work_leaves_it(kind, reading):
    assert void_by(reading, TakenReading(THEN), [work(kind)]) is None


@pytest.mark.parametrize("kind", VOIDS_NOTHING)
def test_some_work_leaves_every_reading(kind):
    found = standings(dict.fromkeys(READINGS, TakenReading(THEN)), [work(kind)])
    assert {standing.state for standing in found.values()} == {"stands"}


def test_polishing_is_work_of_no_kind_and_leaves_every_reading():
    polished = FinishedWork(1, "Polish the rear quarter", (), THEN + HOUR)
    found = standings(dict.fromkeys(READINGS, TakenReading(THEN)), [polished])
    assert {standing.state for standing in found.values()} == {"stands"}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_work_voids_readings_that_exist(kind):
    found = standings(dict.fromkeys(READINGS, TakenReading(THEN)), [work(kind)])
    void = {slug for slug, row in found.items() if row.state == "void"}
    assert KINDS[kind].voids <= void


def test_the_first_job_that_voided_it_is_named():
    late, early = work("crash", THEN + 3 * HOUR), FinishedWork(2, "Arm", ("steering_arm",), THEN + HOUR)
    found = standings({"toe_front": TakenReading(THEN)}, [late, early])
    assert found["toe_front"].work == early


def test_a_reading_void_below_makes_those_above_it_void_until_it_is_measured():
    done = work("mass_moved", THEN + HOUR)
    after = TakenReading(THEN + 2 * HOUR)
    taken = {"ride_height": TakenReading(THEN), "corner_weights": after, "camber": after}
    taken |= {"toe_front": after, "toe_rear": None}
    found = standings(taken, [done])
    assert {slug: row.state for slug, row in found.items()} == {
        "ride_height": "void",
        "corner_weights": "void",
        "camber": "void",
        "toe_front": "void",
        "toe_rear": "missing",
    }
    assert found["toe_front"].through == "ride_height"
    assert found["toe_front"].work == done
    again = standings({**taken, "ride_height": after}, [done])
    assert {row.state for slug, row in again.items() if slug != "toe_rear"} == {"stands"}


def test_a_base_never_taken_says_nothing():
    found = standings({"ride_height": None, "toe_front": TakenReading(THEN)}, [])
    assert found["toe_front"].state == "stands"


def test_the_last_act_of_a_job_holds_though_the_job_ends_later():
    job = work("jam_nut", THEN + LAST_ACT, begun=THEN - HOUR)
    assert void_by("toe_front", TakenReading(THEN, last_of=1), [job]) is None
    long_after = work("jam_nut", THEN + LAST_ACT + timedelta(seconds=1), begun=THEN - HOUR)
    assert void_by("toe_front", TakenReading(THEN, last_of=1), [long_after]) == long_after
    assert void_by("toe_front", TakenReading(THEN, last_of=1), [replace(long_after, end=GOES_ON)]) is None
    assert void_by("toe_front", TakenReading(THEN), [job]) == job
    again = work("jam_nut", THEN + HOUR, begun=THEN + HOUR / 2)
    assert void_by("toe_front", TakenReading(THEN, last_of=1), [again]) == again


def test_of_work_that_ended_the_same_moment_it_holds_only_as_its_last_act():
    ended = work("steering_arm", THEN)
    assert void_by("toe_front", TakenReading(THEN), [ended]) == ended
    assert void_by("toe_front", TakenReading(THEN, last_of=1), [ended]) is None
    assert void_by("toe_front", TakenReading(THEN + timedelta(seconds=1)), [ended]) is None


def test_what_to_measure_takes_the_void_ones_that_it_rests_on():
    done = work("bushing_or_mount")
    before, after = TakenReading(THEN), TakenReading(THEN + 2 * HOUR)
    taken = {"ride_height": None, "camber": before, "toe_front": after, "brake_bleed": before}
    found = standings(taken, [done])
    assert to_measure(found, ["toe_front"]) == ("camber", "toe_front")
    assert to_measure(found, ["brake_bleed"]) == ()
    assert to_measure(found, ["brake_bleed"], [("hydraulics_opened",)]) == ("brake_bleed",)


@pytest.mark.parametrize(
    "reading", ["lock_angles", "ackermann", "lock_clearance", "toggle_check", "camber", "toe_front"]
)
def test_a_steering_arm_that_is_cut_leaves_no_lock_angle_standing(reading):
    cut = work("part_weld")
    assert void_by(reading, TakenReading(THEN), [cut]) == cut


def test_an_unknown_kind_of_work_is_refused():
    with pytest.raises(ValueError, match="not a known kind of work"):
        void_by("toe_front", TakenReading(THEN), [work("polishing")])
