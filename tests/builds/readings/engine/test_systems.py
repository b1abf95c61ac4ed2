"""What work makes void, held row by row; which systems are safety, and how ranks may move."""

from itertools import combinations

import pytest

from builds.readings.engine import READINGS, in_measuring_order, resting_on
from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.work.engine.ranks import RANKS, rank_for, refuse_rank
from garage.engine.systems import SYSTEMS

# The trade's matrix, common practice without a published source: kind of work -> marked columns.
COLUMNS = {
    "ride_height",
    "corner_weights",
    "camber",
    "caster",
    "toe_front",
    "toe_rear",
    "bump_steer",
    "lock_clearance",
    "brake_bleed",
    "wheel_torque",
    "cg_height",
}
GEOMETRY = {"ride_height", "corner_weights", "camber", "toe_front", "toe_rear"}
MATRIX = {
    "spring_change": COLUMNS - {"bump_steer", "brake_bleed"},
    "tyre_or_pressure": COLUMNS - {"caster", "bump_steer", "brake_bleed"},
    "mass_moved": GEOMETRY | {"cg_height"},
    "bar_preload": {"ride_height", "corner_weights", "lock_clearance"},
    "camber_front": COLUMNS - {"toe_rear", "brake_bleed", "cg_height"},
    "front_trim": COLUMNS - {"toe_rear", "bump_steer", "brake_bleed", "cg_height"},
    "rear_link": GEOMETRY | {"bump_steer", "wheel_torque"},
    "rear_trim": GEOMETRY | {"wheel_torque"},
    "caster": COLUMNS - {"toe_rear", "brake_bleed", "cg_height"},
    "steering_arm": {"toe_front", "bump_steer", "lock_clearance", "wheel_torque"},
    "rack_spacer": {"toe_front", "bump_steer", "lock_clearance", "wheel_torque"},
    "bushing_or_mount": COLUMNS - {"brake_bleed", "cg_height"},
    "chassis_weld": COLUMNS - {"brake_bleed", "wheel_torque"},
    "wheel_off": {"wheel_torque"},
    "wheel_or_spacer": {"corner_weights", "camber", "toe_front", "lock_clearance", "wheel_torque"},
    "hydraulics_opened": {"brake_bleed", "wheel_torque"},
    "mass_unit_moved": GEOMETRY | {"cg_height"},
    "crash": COLUMNS,
}

# Numbered trade rules that make something void: rule -> kind of work -> readings.
RULES = [
    (1, "chassis_weld", "ride_height corner_weights caster camber toe_front toe_rear"),
    (1, "jam_nut", "wheel_torque lock_clearance"),
    (2, "part_weld", "camber caster toe_front toe_rear bump_steer earths"),
    (2, "chassis_weld", "camber caster toe_front toe_rear bump_steer earths"),
    (3, "paint", "earths"),
    (4, "wheel_off", "wheel_torque"),
    (5, "joint_opened", "joint_torque toe_front toe_rear"),
    (6, "pin_out", "joint_pins"),
    (5, "rack_spacer", "joint_torque"),
    (5, "steering_arm", "joint_torque"),
    (5, "bushing_or_mount", "joint_torque"),
    (5, "length_adjusted", "joint_torque"),
    (7, "length_adjusted", "thread_engagement"),
    (8, "length_adjusted", "jam_nuts toe_front toe_rear wheel_torque"),
    (14, "length_adjusted", "bump_steer ackermann lock_angles"),
    (15, "length_adjusted", "lock_clearance"),
    (16, "length_adjusted", "toggle_check"),
    (7, "rack_spacer", "thread_engagement"),
    (8, "rack_spacer", "jam_nuts"),
    (8, "jam_nut", "toe_front jam_nuts"),
    (9, "rack_moved", "toe_front lock_angles bump_steer"),
    (10, "rear_link", "toe_rear toe_front"),
    (10, "rear_trim", "toe_rear toe_front"),
    (11, "spring_change", "corner_weights camber caster toe_front toe_rear"),
    (11, "bar_preload", "corner_weights camber caster toe_front toe_rear"),
    (11, "tyre_or_pressure", "corner_weights camber caster toe_front toe_rear"),
    (11, "mass_moved", "corner_weights camber caster toe_front toe_rear"),
    (12, "bar_preload", "corner_weights"),
    (13, "camber_front", "toe_front"),
    (13, "caster", "toe_front"),
    (13, "front_trim", "toe_front"),
    (
        14,
        "steering_arm",
        "toe_front bump_steer ackermann lock_angles lock_clearance toggle_check",
    ),
    (14, "rack_spacer", "toe_front bump_steer ackermann lock_angles lock_clearance toggle_check"),
    (15, "wheel_or_spacer", "lock_clearance"),
    (15, "rack_moved", "lock_clearance"),
    (15, "spring_change", "lock_clearance"),
    (15, "lock_stop", "lock_clearance"),
    (15, "steering_arm", "lock_clearance"),
    (16, "lock_stop", "toggle_check"),
    (16, "rack_moved", "toggle_check"),
    (16, "wheel_or_spacer", "toggle_check"),
    (16, "steering_arm", "toggle_check"),
    (16, "bushing_or_mount", "toggle_check"),
    (17, "hydraulics_opened", "brake_bleed pedal_travel brake_bias"),
    (18, "friction_parts", "pad_bedding brake_bias"),
    (19, "hydraulics_opened", "hose_check"),
    (19, "lock_stop", "hose_check"),
    (19, "spring_change", "hose_check"),
    (20, "hub_opened", "bearing_play wheel_speed_gap wheel_torque"),
    (21, "seat_or_belt_moved", "belt_geometry belt_torque"),
    (22, "seat_work", "ballast_position corner_weights"),
    (23, "extinguisher_used", "extinguisher"),
    (24, "wiring", "master_switch"),
    (25, "fuel_line", "fuel_leak"),
    (26, "coolant", "coolant_bleed fan_switch"),
    (27, "throttle", "throttle_return"),
    (27, "engine_mount", "throttle_return"),
    (28, "engine_work", "routing"),
    (28, "steering_column", "routing"),
    (28, "steering_arm", "routing"),
    (29, "wheel_or_spacer", "thread_engagement wheel_torque lock_clearance track_width"),
    (29, "wheel_or_spacer", "scrub_radius"),
    (30, "paint_under_joint", "joint_torque"),
    (31, "part_pulled", "printed_checklist"),
    (32, "job_reopened", "printed_checklist"),
    (33, "crash", "corner_weights camber caster toe_front toe_rear bump_steer wheel_run_out"),
    (33, "crash", "belt_life helmet_life"),
    (33, "crash", "extinguisher master_switch fuel_leak throttle_return thread_engagement"),
    (36, "first_run", "wheel_torque jam_nuts leak_check tyre_pressures belt_check"),
]
# 34 and 35 void nothing: one is a gate, the other says what makes a reading usable at all.
RULES_THAT_VOID = set(range(1, 34)) | {36}


@pytest.mark.parametrize("kind", MATRIX)
def test_every_row_of_the_matrix_marks_its_columns_and_no_other(kind: str) -> None:
    assert KINDS[kind].voids & COLUMNS == MATRIX[kind]


@pytest.mark.parametrize(("rule", "kind", "readings"), RULES)
def test_every_numbered_rule_voids_its_readings(rule: int, kind: str, readings: str) -> None:
    assert set(readings.split()) <= voided_by([kind])
    assert rule in KINDS[kind].rules


def test_no_numbered_rule_that_voids_something_is_left_out() -> None:
    assert {rule for rule, _, _ in RULES} == RULES_THAT_VOID


def test_the_first_session_reopens_five_things_and_no_more() -> None:
    assert voided_by(["first_run"]) == {
        "wheel_torque",
        "jam_nuts",
        "leak_check",
        "tyre_pressures",
        "belt_check",
    }


@pytest.mark.parametrize(
    ("void", "all_void"),
    [
        (
            "ride_height",
            "ride_height corner_weights camber caster toe_rear toe_front",
        ),
        ("corner_weights", "corner_weights camber caster toe_rear toe_front"),
        ("camber", "camber toe_rear toe_front"),
        ("caster", "caster toe_rear toe_front"),
        ("toe_rear", "toe_rear toe_front"),
        ("toe_front", "toe_front"),
        ("bump_steer", "bump_steer"),
        ("wheel_torque", "wheel_torque"),
    ],
)
def test_what_rests_on_a_void_reading_is_void(void: str, all_void: str) -> None:
    assert resting_on([void]) == set(all_void.split())


def test_a_pressure_change_takes_caster_with_it_though_its_row_does_not_mark_it() -> None:
    assert "caster" not in KINDS["tyre_or_pressure"].voids
    assert "caster" in voided_by(["tyre_or_pressure"])


def test_a_wheel_taken_off_voids_its_torque_alone() -> None:
    assert voided_by(["wheel_off"]) == {"wheel_torque"}


def test_nothing_rests_on_a_reading_taken_after_it() -> None:
    order = list(READINGS)
    for slug, reading in READINGS.items():
        assert all(order.index(below) < order.index(slug) for below in reading.rests_on)


def test_work_together_voids_what_each_voids_alone() -> None:
    for first, second in combinations(KINDS, 2):
        assert voided_by([first, second]) == voided_by([first]) | voided_by([second])


def test_no_work_voids_nothing() -> None:
    assert voided_by([]) == frozenset()


def test_every_kind_names_known_readings_and_is_filed_under_its_slug() -> None:
    for slug, kind in KINDS.items():
        assert kind.slug == slug
        assert kind.label
        assert kind.voids <= READINGS.keys()


def test_every_reading_is_voided_by_some_work() -> None:
    assert voided_by(KINDS) == READINGS.keys()


def test_readings_are_put_in_the_order_in_which_they_are_taken() -> None:
    mixed = [
        *("lock_clearance", "toe_front", "camber", "corner_weights", "bump_steer"),
        *("ride_height", "wheel_torque", "toe_rear", "tyre_pressures"),
    ]
    assert in_measuring_order(mixed) == (
        "tyre_pressures",
        "ride_height",
        "bump_steer",
        "corner_weights",
        "camber",
        "toe_rear",
        "toe_front",
        "wheel_torque",
        "lock_clearance",
    )


def test_an_unknown_word_is_refused_in_one_sentence() -> None:
    with pytest.raises(ValueError, match=r"^'sandblasting' is not a known kind of work\.$"):
        voided_by(["wheel_off", "sandblasting"])
    with pytest.raises(ValueError, match=r"^'luck' is not a known reading\.$"):
        resting_on(["luck"])
    with pytest.raises(ValueError, match=r"^'flux' is not a known system\.$"):
        rank_for(["flux"])


SAFETY = {
    "steering",
    "brakes",
    "suspension",
    "wheels",
    "restraint",
    "seat",
    "fuel",
    "fire",
    "cage",
}


@pytest.mark.parametrize("system", SYSTEMS)
def test_nine_systems_are_safety_by_themselves(system: str) -> None:
    assert rank_for([system]) == ("safety" if system in SAFETY else None)


def test_one_safety_system_among_others_is_enough() -> None:
    assert rank_for(["paint", "body", "cage"]) == "safety"
    assert rank_for(["paint", "body"]) is None
    assert rank_for([]) is None


def test_ranks_stand_from_the_most_urgent_down() -> None:
    assert list(RANKS) == ["safety", "needed", "wanted"]


def test_any_job_may_be_raised_by_hand() -> None:
    assert refuse_rank("safety", ["paint"]) is None
    assert refuse_rank("needed", ["engine"]) is None
    assert refuse_rank("safety", ["brakes"]) is None  # as it ranks by itself


def test_a_safety_job_is_lowered_only_with_a_written_reason() -> None:
    refusal = refuse_rank("wanted", ["brakes", "paint", "steering"], "  ")
    assert refusal == "This job touches steering, brakes: write down why it may rank below safety."
    assert refuse_rank("needed", ["brakes"]) is not None
    assert refuse_rank("wanted", ["brakes"], "A spare caliper for the bench only") is None


def test_a_word_that_is_no_rank_is_refused() -> None:
    assert refuse_rank("urgent", []) == "'urgent' is not a rank: choose safety, needed or wanted."
