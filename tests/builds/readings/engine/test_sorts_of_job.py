"""Sorts of jobs by their kinds of work and readings: the plainest of each sort, and what takes it out of the sort."""

import pytest

from builds.readings.engine import sorts_of_job as sorts
from builds.readings.engine.car_job import CarJob, ChainStep

LIGHTS = {"systems": ("electrics",), "by_hand": True}
SHELL = {"systems": ("body", "cage")}
STEP = {"measures": ("toe_front",)}


@pytest.mark.parametrize(
    ("sort", "kinds", "told", "never"),
    [
        (sorts.outside, ("paint",), {}, STEP),
        (sorts.moves_no_reading, ("wiring",), LIGHTS, {"fits": True}),
        (sorts.moves_no_reading, ("wiring",), LIGHTS, {"comes_out": True}),
        (sorts.moves_no_reading, ("wiring",), LIGHTS, {"by_hand": False}),
        (sorts.moves_no_reading, ("wiring",), LIGHTS, {"kinds": ("wiring", "mass_unit_moved")}),
        (sorts.moves_no_reading, (), {**LIGHTS, "unsaid": True}, {"systems": ("electrics", "body")}),
        (sorts.moves_no_reading, (), {**LIGHTS, "unsaid": True}, {"systems": ()}),
        (sorts.reads_shell, (), SHELL, {"kinds": ("hot_work",)}),
        (sorts.reads_shell, (), SHELL, {"measures": ("bearing_play",)}),
        (sorts.reads_shell, (), SHELL, {"systems": ("cage", "seat")}),
        (sorts.reads_shell, (), SHELL, {"by_hand": True}),
        (sorts.welds_shell, ("part_weld",), SHELL, {"kinds": ("paint",)}),
        (sorts.welds_shell, ("part_weld",), {"systems": ("cage",)}, {"systems": ("steering",)}),
        (sorts.mounts_seat, ("seat_work",), {}, {"kinds": ("seat_work", "seat_or_belt_moved")}),
        (sorts.mounts_seat, ("seat_work",), {}, {"measures": ("ballast_position",)}),
        (sorts.on_stands, ("hub_opened",), {}, STEP),
        (sorts.on_stands, (), {"measures": ("brake_bleed",)}, {"measures": ()}),
        (sorts.fits_wheels, ("wheel_off", "wheel_or_spacer"), {}, STEP),
        (sorts.seen_rolling, (), {"seen_rolling": True}, {"seen_rolling": False}),
        (sorts.seen_rolling, (), {"seen_rolling": True}, {"kinds": ("hub_opened",)}),
        (sorts.strips, ("wheel_off", "hub_opened"), {}, {"measures": ("bearing_play",)}),
        (sorts.strips, ("wheel_off", "hydraulics_opened"), {}, {"kinds": ("hydraulics_opened",)}),
        (sorts.builds_up, ("friction_parts",), {}, {"kinds": ("friction_parts", "wheel_off")}),
        (sorts.builds_up, ("hub_opened",), {}, STEP),
        (sorts.hangs, ("bushing_or_mount",), {}, {"kinds": ("bushing_or_mount", "wheel_off")}),
        (sorts.carrier_fault, ("bushing_or_mount",), {"faulty": True}, {"faulty": False}),
        (sorts.built_on, ("joint_opened",), {}, {"faulty": True}),
        (sorts.built_on, ("hub_opened", "wheel_off"), {"by_hand": True}, {"by_hand": False}),
        (sorts.closes_hub, ("hub_opened",), {"measures": ("bearing_play",)}, {"measures": ()}),
        (sorts.ties_rods, ("steering_arm", "jam_nut"), {}, {"kinds": ("steering_arm", "jam_nut", "hub_opened")}),
        (sorts.closes_joints, ("joint_opened", "pin_out"), {"measures": ("joint_pins",)}, {"measures": ()}),
        (sorts.hangs_dampers, ("spring_change", "joint_opened"), {"measures": ("joint_torque",)}, {"measures": ()}),
        (sorts.moves_engine, ("mass_unit_moved", "engine_mount"), {"systems": ("engine",)}, {"systems": ()}),
        (sorts.gearbox_off, ("mass_unit_moved", "engine_mount"), {"systems": ("gearbox",)},
         {"systems": ("gearbox", "engine")}),
        (sorts.gearbox_on, ("mass_unit_moved", "engine_mount", "engine_work"), {"systems": ("gearbox",)},
         {"kinds": ("mass_unit_moved", "engine_mount")}),
        (sorts.swaps_mount, ("engine_mount", "engine_work"), {},
         {"kinds": ("engine_mount", "engine_work", "mass_unit_moved")}),
        (sorts.new_lines, ("fuel_line",), {}, {"kinds": ("fuel_line", "throttle")}),
        (sorts.takes_seat_out, ("seat_or_belt_moved",), {}, {"guessed": True}),
        (sorts.takes_seat_out, ("seat_or_belt_moved",), {}, {"fits": True}),
        (sorts.takes_seat_out, ("seat_or_belt_moved", "seat_work"), {"comes_out": True, "guessed": True},
         {"comes_out": False}),
        (sorts.takes_seat_out, ("seat_or_belt_moved",), {"comes_out": True},
         {"kinds": ("seat_or_belt_moved", "hot_work")}),
        (sorts.sets_seat, ("seat_work",), {"fits": True}, {"kinds": ("seat_or_belt_moved",)}),
        (sorts.takes_wiring_out, ("wiring",), {"comes_out": True}, {"comes_out": False}),
        (sorts.takes_wiring_out, ("wiring",), {"comes_out": True}, {"kinds": ("wiring", "hot_work")}),
        (sorts.fits_wiring, ("wiring",), {"fits": True}, {"fits": False}),
        (sorts.fits_wiring, ("wiring",), {"fits": True}, {"kinds": ("wiring", "hot_work")}),
        (sorts.only_wheels_off, ("wheel_off",), {"comes_out": True}, {"kinds": ("wheel_off", "hub_opened")}),
        (sorts.only_wheels_off, ("wheel_off",), {"comes_out": True}, {"comes_out": False}),
        (sorts.wheels_off, ("wheel_off", "hub_opened"), {}, {"measures": ("bearing_play",)}),
        (sorts.fits_tyres, ("tyre_or_pressure",), {}, {"measures": ("tyre_pressures",)}),
        (sorts.paints_body, ("paint",), {"systems": ("brakes",)}, {"by_hand": True}),
        (sorts.bonds_glass, ("glass_bonding",), {}, {"kinds": ("glass_bonding", "paint")}),
        (sorts.fits_seat, ("seat_work",), {"measures": ("belt_torque",)}, {"measures": ()}),
        (sorts.fits_seat, ("seat_or_belt_moved",), {"fits": True}, {"fits": False}),
        (sorts.fits_seat, ("seat_work",), {"fits": True}, {"kinds": ("seat_work", "hot_work")}),
        (sorts.fuel_test, (), {"measures": ("fuel_leak",)}, {"kinds": ("fuel_line",)}),
        (sorts.looks_over, (), {"measures": ("leak_check",)}, {"kinds": ("coolant",)}),
    ],
)  # fmt: skip
def test_the_plainest_of_a_sort_is_of_it_and_with_one_thing_changed_is_not(sort, kinds, told, never):
    job = {"kinds": kinds, **told}
    assert sort(CarJob(**job))
    assert not sort(CarJob(**{**job, **never}))


def test_what_is_measured_goes_from_the_load_to_the_front_toe():
    took = {CarJob(measures=(slug,)).step: sorts.measured(CarJob(measures=(slug,))) for slug in (
        "tyre_pressures", "ride_height", "bump_steer", "corner_weights", "camber", "toe_rear", "toe_front",
        "wheel_torque", "lock_angles", "pad_bedding",
    )}  # fmt: skip
    assert took == {step: step <= ChainStep.FRONT_TOE for step in took} and len(took) == 10
    assert not sorts.measured(CarJob(kinds=("wheels_on",))) and not sorts.measured(CarJob(kinds=("paint",)))


@pytest.mark.parametrize(("kinds", "measures", "step"), [
    (("camber_front",), ("camber",), ChainStep.COARSE), ((), ("camber",), ChainStep.TRIMMED),
    (("caster",), ("camber", "corner_weights"), ChainStep.TRIMMED),
    (("camber_front",), ("toe_front",), ChainStep.FRONT_TOE),
    (("rack_moved",), (), ChainStep.RACK), (("rack_moved", "jam_nut"), (), None),
    (("wheels_on",), ("toe_front",), ChainStep.ON_WHEELS), (("wheels_on", "driven"), (), ChainStep.DRIVEN),
])  # fmt: skip
def test_where_a_job_stands_in_the_chain(kinds, measures, step):
    assert CarJob(kinds=kinds, measures=measures).step == step
