"""The trade's order inside every shipped recipe: what is measured, driven, signed and clamped when.

Common practice, no source.
"""

import re
from itertools import combinations

import pytest

from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.recipes.engine.recipe import Recipe, RecipeJob
from builds.steps.engine.looks import JOINTS
from garage.engine.systems import SAFETY_SYSTEMS
from tests.builds.recipes.engine.shipped_kit import RECIPES, does, not_before, order

# Reading, and which of a recipe's takings of it counts: the first, or the last when it is taken again.
CHAIN = (
    *(("tyre_pressures", "first"), ("ride_height", "first"), ("bump_steer", "last")),
    *(("corner_weights", "last"), ("camber", "last"), ("caster", "last"), ("toe_rear", "last")),
    *(("toe_front", "last"), ("wheel_torque", "last"), ("lock_clearance", "last")),
)
UNWEIGHED = (*CHAIN[:2], *CHAIN[4:6], CHAIN[2], *CHAIN[6:])
GEOMETRY = {
    *("ride_height", "corner_weights", "camber", "caster", "bump_steer", "toe_rear", "toe_front"),
}
# What must be right before anybody drives it or revs it in gear on its wheels.
BEFORE_IT_IS_DRIVEN = GEOMETRY | {
    *("wheel_torque", "lock_clearance", "toggle_check", "hose_check", "brake_bleed", "thread_engagement"),
    *("jam_nuts", "joint_torque", "joint_pins", "bearing_play", "throttle_return", "fuel_leak", "routing"),
}
DRIVEN = {
    ("assisted-steering", "fail-check"),
    ("brake-overhaul", "bed-in"),
    ("clutch-gearbox", "run"),
    ("differential", "run-in"),
    ("pre-event-spanner-check", "shakedown"),
}
# On the driveway with the engine off.
AT_REST_OUTSIDE = {("post-event-strip-down", "wash"), ("bonded-windscreen", "water")}
# Work whose mistakes a second pair of eyes has to find, besides the joints themselves.
SIGNED_WORK = JOINTS | {
    *("camber_front", "caster", "rear_link", "front_trim", "rear_trim", "rack_moved", "rack_spacer"),
    *("spring_change", "lock_stop", "friction_parts", "wheel_or_spacer", "seat_work"),
    *("throttle", "engine_mount", "brake_vacuum", "clutch_line"),
}


@pytest.fixture(params=RECIPES)
def recipe(request: pytest.FixtureRequest) -> Recipe:
    return RECIPES[request.param]


def takes(recipe: Recipe, reading: str) -> list[RecipeJob]:
    return [job for job in recipe.jobs if reading in job.measures and not job.before]


def first_or_last(recipe: Recipe, reading: str, which: str) -> RecipeJob | None:
    """The taking that stands before, or after, all the others of that reading."""
    before, jobs = order(recipe), takes(recipe, reading)
    for job in jobs:
        others = [other.key for other in jobs if other is not job]
        if all((job.key in before[key]) if which == "first" else (key in before[job.key]) for key in others):
            return job
    assert not jobs, f"{recipe.key}: nothing says in which order {reading} is taken"
    return None


def test_no_reading_is_taken_before_work_that_voids_it(recipe: Recipe) -> None:
    for job in recipe.jobs:
        # Camber and caster near the figure are those that are trimmed later, and taken then.
        coarse = {"camber", "caster"} if does(job, ("camber_front", "caster")) else set()
        for reading in () if job.before else set(job.measures) - coarse:
            for later in not_before(recipe, job):
                # What a later step disturbs, it takes again as its last act.
                assert reading not in voided_by(later.kinds) or reading in later.measures, (
                    f"{recipe.key}: {later.key} voids {reading}, which {job.key} took"
                )


def test_the_links_follow_the_measuring_chain(recipe: Recipe) -> None:
    before = order(recipe)
    # Where nothing is weighed, camber and caster are taken once, as the coarse ones before bump steer.
    chain = CHAIN if takes(recipe, "corner_weights") else UNWEIGHED
    steps = [(reading, job) for reading, which in chain if (job := first_or_last(recipe, reading, which))]
    for (early, one), (late, other) in combinations(steps, 2):
        assert one is other or one.key in before[other.key], f"{recipe.key}: {late} before {early}"


def test_coarse_camber_and_caster_come_before_bump_steer_and_trimming_after_it(recipe: Recipe) -> None:
    before = order(recipe)
    for bump in takes(recipe, "bump_steer"):
        for job in recipe.jobs:
            if does(job, ("camber_front", "caster", "rear_link")):
                assert job.key in before[bump.key]
            if does(job, ("front_trim", "rear_trim")):
                assert bump.key in before[job.key]


def test_what_is_measured_on_its_wheels_is_measured_with_its_pressures_read(recipe: Recipe) -> None:
    if any(takes(recipe, reading) for reading in GEOMETRY):
        assert takes(recipe, "tyre_pressures")


def test_a_before_reading_says_how_the_car_stood_before_the_work(recipe: Recipe) -> None:
    before = order(recipe)
    for job in recipe.jobs:
        if job.before:
            earlier = {kind for work in recipe.jobs if work.key in before[job.key] for kind in work.kinds}
            assert earlier <= {"tyre_or_pressure"}  # pressures are set first, or nothing can be compared
            assert any(voided_by(work.kinds) & set(job.measures) for work in not_before(recipe, job))


def test_weighing_has_its_scales_and_two_hands(recipe: Recipe) -> None:
    for job in recipe.jobs:
        if "corner_weights" in job.measures:
            assert "scales" in job.tools, f"{recipe.key}: {job.key} weighs without scales"
            assert job.hands >= 2, f"{recipe.key}: {job.key} weighs alone"


def test_nothing_is_driven_before_it_is_torqued_set_checked_and_signed(recipe: Recipe) -> None:
    before = order(recipe)
    for run in recipe.jobs:
        if "driven" not in run.kinds:
            continue
        for job in recipe.jobs:
            sets = (voided_by(job.kinds) | set(job.measures)) & BEFORE_IT_IS_DRIVEN
            if job.key != run.key and (sets or job.hold_points):
                assert job.key in before[run.key], f"{recipe.key}: {run.key} does not wait for {job.key}"


def test_jobs_that_drive_the_car_say_so() -> None:
    marked = {(recipe.key, job.key) for recipe in RECIPES.values() for job in recipe.jobs if "driven" in job.kinds}
    assert marked == DRIVEN
    said = re.compile(r"\b(drive it|bed in|run it|shake it|walking pace|figures of eight|closed ground)\b", re.I)
    for recipe in RECIPES.values():
        for job in recipe.jobs:
            if said.search(" ".join((job.title, job.note, *job.hold_points))):
                assert (recipe.key, job.key) in DRIVEN


def test_jobs_that_run_the_engine_say_so() -> None:
    said = re.compile(r"\b(engine running|engine warm|start it|warm it up|once warm|blip|cranking)\b", re.I)
    for recipe in RECIPES.values():
        for job in recipe.jobs:
            outside = "driveway" in job.stations and (recipe.key, job.key) not in AT_REST_OUTSIDE
            if outside or said.search(" ".join((job.title, job.note, *job.hold_points))):
                assert does(job, ("engine_run", "driven")), f"{recipe.key}: {job.key}"


def test_no_engine_runs_on_an_opened_fuel_line_before_its_leak_test_is_signed(recipe: Recipe) -> None:
    before = order(recipe)
    tests = [job for job in recipe.jobs if "fuel" in job.systems and job.hold_points and not job.kinds]
    for opened in recipe.jobs:
        if not does(opened, ("fuel_line", "crash")):
            continue
        for run in not_before(recipe, opened):
            if does(run, ("engine_run", "driven")):
                assert any(opened.key in before[test.key] and test.key in before[run.key] for test in tests)


def test_safety_work_is_followed_by_a_hold_point(recipe: Recipe) -> None:
    for job in recipe.jobs:
        if does(job, SIGNED_WORK) and SAFETY_SYSTEMS & set(job.systems):
            assert any(later.hold_points for later in not_before(recipe, job)), f"{recipe.key}: {job.key}"


def test_every_recipe_that_touches_what_can_hurt_stops_for_a_second_pair_of_eyes(recipe: Recipe) -> None:
    if any(SAFETY_SYSTEMS & set(job.systems) and voided_by(job.kinds) for job in recipe.jobs):
        assert any(job.hold_points and SAFETY_SYSTEMS & set(job.systems) for job in recipe.jobs)


def test_paint_under_a_clamped_face_cures_right_through_before_it_is_clamped(recipe: Recipe) -> None:
    for painted in recipe.jobs:
        if not does(painted, ("paint_under_joint",)):
            continue
        clamping = [job for job in not_before(recipe, painted) if does(job, JOINTS) and job.hold_points]
        assert clamping
        for job in clamping[:1]:
            assert [link.stage for link in job.after if link.job == painted.key] == ["full"]


def test_a_wait_for_what_is_clamped_is_a_wait_for_full_cure(recipe: Recipe) -> None:
    for job in recipe.jobs:
        for link in job.after:
            if link.cure and re.search(r"clamp|clip|bead|bracket", link.why) and "bare" not in link.why:
                assert link.stage == "full", f"{recipe.key}: {job.key} after {link.job}"


def test_where_a_safety_part_is_painted_clamped_faces_are_masked_or_cure_right_through() -> None:
    for recipe in RECIPES.values():
        for job in recipe.jobs:
            if job.skill == "paint" and {"steering", "suspension"} & set(job.systems) and job.key == "topcoat":
                earlier = [other for other in recipe.jobs if other.key in order(recipe)[job.key] | {job.key}]
                assert any(re.search(r"mask .*clamped", other.note, re.I) for other in earlier)


def test_every_kind_of_work_that_opens_a_joint_is_signed_work() -> None:
    opens = {slug for slug, kind in KINDS.items() if kind.voids & {"joint_pins", "joint_torque", "jam_nuts"}}
    by_itself = {"crash", "first_run", "paint_under_joint"}
    assert opens - by_itself <= SIGNED_WORK
