"""What each shipped recipe must not forget, said job by job. Common practice, no source."""

from itertools import pairwise

import pytest

from tests.builds.recipes.engine.shipped_kit import RECIPES, job_of, order

# recipe, job -> kinds of work that the job does
DOES = [
    ("panel-repair-paint", "clear", "fuel_line hydraulics_opened wiring"),
    ("panel-repair-paint", "refit", "fuel_line hydraulics_opened wiring"),
    ("structural-weld-repair", "strip", "fuel_line hydraulics_opened seat_or_belt_moved seat_work"),
    ("structural-weld-repair", "refit", "fuel_line hydraulics_opened"),
    ("structural-weld-repair", "belts", "seat_or_belt_moved seat_work"),
    ("steering-arm-rework", "strip", "hub_opened wheel_off joint_opened"),
    ("steering-arm-rework", "refit", "hub_opened steering_arm"),
    ("clutch-gearbox", "strip", "clutch_line hub_opened"),
    ("clutch-gearbox", "shafts", "hub_opened"),
    ("engine-out-in", "strip", "brake_vacuum steering_column clutch_line"),
    ("engine-out-in", "connect", "brake_vacuum steering_column clutch_line"),
    ("differential", "run-in", "driven"),
    ("clutch-gearbox", "run", "driven"),
    ("four-wheel-alignment", "trim", "front_trim"),
    ("four-wheel-alignment", "rear-toe", "rear_trim"),
]
# recipe, job -> readings that the job takes
TAKES = [
    ("panel-repair-paint", "bleed", "brake_bleed pedal_travel brake_bias"),
    ("panel-repair-paint", "hose-check", "hose_check"),
    ("panel-repair-paint", "master-switch", "fuel_leak master_switch"),
    ("structural-weld-repair", "bleed", "brake_bleed pedal_travel brake_bias"),
    ("structural-weld-repair", "earths", "earths fuel_leak master_switch"),
    ("structural-weld-repair", "belts", "belt_geometry belt_torque belt_check"),
    ("steering-arm-rework", "refit", "bearing_play wheel_speed_gap joint_torque joint_pins"),
    ("clutch-gearbox", "shafts", "bearing_play wheel_speed_gap"),
    ("clutch-gearbox", "clutch-bleed", "fluid_levels throttle_return"),
    ("engine-out-in", "first-start", "pedal_travel throttle_return fuel_leak leak_check"),
    ("engine-out-in", "clutch-steering", "throttle_return routing"),
    ("crash-check", "gear", "extinguisher belt_life helmet_life"),
    ("crash-check", "controls", "throttle_return"),
    ("crash-check", "start", "fuel_leak master_switch"),
    ("pre-event-spanner-check", "wheels", "tyre_pressures wheel_torque"),
]
# recipe, job -> what its title and its hold points say
SIGNS = [
    ("panel-repair-paint", "refit", ["fuel and brake union", "second person"]),
    ("panel-repair-paint", "fuel-leak", ["dry at working pressure", "cold"]),
    ("panel-repair-paint", "bleed", ["Hard pedal", "every union dry"]),
    ("structural-weld-repair", "fuel-leak", ["dry at working pressure", "cold"]),
    ("structural-weld-repair", "belts", ["own threads", "torqued", "unburnt"]),
    ("steering-arm-rework", "strip", ["hub and brake off"]),
    ("steering-arm-rework", "refit", ["Hub nut new", "caliper bolts torqued", "clamped faces bare"]),
    ("damper-spring-change", "bars-on", ["Bar links", "no preload", "perch locks tight"]),
    ("clutch-gearbox", "shafts", ["new hub nuts torqued and staked or pinned"]),
    ("clutch-gearbox", "clutch-bleed", ["unions dry", "one reservoir"]),
    ("engine-out-in", "connect", ["Steering shaft", "pinch bolt"]),
    ("engine-out-in", "clutch-steering", ["Clutch frees fully", "lock to lock"]),
    ("engine-out-in", "first-start", ["servo holds its vacuum"]),
    ("wheels-tyres-spacers", "fit", ["caliper clear of the rim"]),
    ("seat-mounts-harness", "reach", ["Helmet on", "cage tube", "below the roll bar"]),
    ("crash-check", "fuel-test", ["dry at working pressure", "cold"]),
    ("crash-check", "controls", ["pedal box", "column", "rack does not move"]),
    ("crash-check", "mounts", ["Every mount whole", "tank and battery"]),
    ("wheel-hub-quick-release", "hub", ["Splined", "Welded", "pinch bolt"]),
    ("wheel-hub-quick-release", "inspect", ["second person", "Crack test done"]),
]
# recipe, and jobs that follow one another
FOLLOWS = [
    ("steering-arm-rework", "inspect clean prime topcoat refit"),
    ("panel-repair-paint", "clear cut weld prime topcoat refit bleed wheel-torque"),
    ("panel-repair-paint", "refit fuel-leak master-switch"),
    ("structural-weld-repair", "strip weld refit bleed wheels-on"),
    ("structural-weld-repair", "refit belts wheels-on weigh"),
    ("structural-weld-repair", "refit fuel-leak earths"),
    ("differential", "wheels-on bump-steer weigh align wheel-torque lock-check run-in"),
    ("clutch-gearbox", "shafts clutch-bleed wheels-on weigh align wheel-torque run"),
    ("crash-check", "fuel-test start"),
    ("crash-check", "controls refit wheels-on camber-caster bump-steer weigh toe wheel-torque lock-check"),
    ("four-wheel-alignment", "before prepare ride-height rack camber-caster bump-steer weigh trim rear-toe front-toe"),
    ("wheel-hub-quick-release", "old-off tack fit-check weld inspect hub release"),
    ("engine-out-in", "connect fuel-leak first-start"),
    ("engine-out-in", "connect clutch-steering first-start"),
]


@pytest.mark.parametrize(("recipe", "key", "kinds"), DOES)
def test_a_job_does_these_kinds_of_work(recipe: str, key: str, kinds: str) -> None:
    assert set(kinds.split()) <= set(job_of(recipe, key).kinds)


@pytest.mark.parametrize(("recipe", "key", "readings"), TAKES)
def test_a_job_takes_these_readings(recipe: str, key: str, readings: str) -> None:
    assert set(readings.split()) <= set(job_of(recipe, key).measures)


@pytest.mark.parametrize(("recipe", "key", "words"), SIGNS)
def test_a_job_says_what_somebody_has_to_look_at(recipe: str, key: str, words: list[str]) -> None:
    job = job_of(recipe, key)
    said = " ".join((job.title, *job.hold_points)).lower()
    assert [word for word in words if word.lower() not in said] == []


@pytest.mark.parametrize(("recipe", "keys"), FOLLOWS)
def test_these_jobs_follow_one_another(recipe: str, keys: str) -> None:
    before = order(RECIPES[recipe])
    chain = keys.split()
    for at, later in enumerate(chain):
        assert set(chain[:at]) <= before[later]


def test_the_refit_after_panel_work_is_a_safety_job_that_is_signed() -> None:
    refit = job_of("panel-repair-paint", "refit")
    assert {"fuel", "brakes"} <= set(refit.systems)
    assert refit.hold_points


def test_the_screen_is_bonded_on_primer_that_cured_right_through() -> None:
    waits = {link.job: link for link in job_of("bonded-windscreen", "bond").after}
    assert (waits["prime"].cure, waits["prime"].stage) == ("epoxy-primer", "full")


def test_the_helmets_room_is_written_down() -> None:
    job = job_of("seat-mounts-harness", "reach")
    assert set(job.asks) == set(job.hold_points)


def test_what_is_welded_is_tacked_checked_welded_and_inspected_before_it_goes_on() -> None:
    for recipe in RECIPES.values():
        steps = [(job.weld, job) for job in recipe.jobs if job.weld]
        if not steps:
            continue
        assert [state for state, _ in steps] == ["tacked", "checked", "welded", "inspected"]
        before = order(recipe)
        for (_, early), (_, late) in pairwise(steps):
            assert early.key in before[late.key]
        assert all(job.hold_points for state, job in steps if state in ("checked", "inspected"))


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=RECIPES)
def test_brakes_are_closed_and_metal_is_welded_by_whoever_can(recipe):
    for job in recipe.jobs:
        kinds = {*job.kinds}
        closes = kinds & {"hydraulics_opened", "friction_parts"} and not kinds & {"wheel_off", "fuel_drained"}
        if (closes and job.key != "clear") or "brake_bleed" in job.measures:
            assert job.skill == "brakes", f"{recipe.key}: {job.key}"
        if kinds & {"part_weld", "chassis_weld", "hot_work"}:
            assert job.skill in ("weld", "paint"), f"{recipe.key}: {job.key}"  # a painter dresses the weld
        if job.kinds == ("wiring",):
            assert job.skill == "wire", f"{recipe.key}: {job.key}"
