"""Welds as the verdict reads them: tacked, welded, inspected, and what was left out or dropped."""

from datetime import timedelta

import pytest

from builds.joints.models import Joint
from builds.joints.pages.joint_torques import NO_FIGURE, torque_rows
from builds.recipes.actions.putting import put
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import steps
from builds.verdict.facts.joints import weld_facts
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from tests.factories import NOW, JobFactory, VehicleFactory

ARM = next(each for each in load_shipped() if each.key == "steering-arm-rework")
STEPS = ("tack", "fit-check", "weld", "inspect")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron", state="driveable")


@pytest.fixture
def arm(cast, car):
    return put(ARM, car, by=cast.owner, at=NOW)


def over(*jobs, hours=0):
    """The jobs are done, their hold points signed by nobody in particular."""
    Job.objects.filter(pk__in=[job.pk for job in jobs]).update(state="done", finished_at=NOW + timedelta(hours=hours))


def facts(car):
    return [(fact.state, fact.title, fact.was_last) for fact in weld_facts([car])[car.pk]]


@pytest.mark.parametrize(
    ("done", "wanted"),
    [
        (0, []),
        (1, [("tacked", "Offer up the tacked arm and check the fit", False)]),
        (2, [("tacked", "Weld the arm", False)]),
        (3, [("uninspected", "Inspect the weld and crack-test it", False)]),
        (4, []),
    ],
)
def test_each_step_of_the_recipe_moves_the_weld_on(car, arm, done, wanted):
    over(*(arm[key] for key in STEPS[:done]))
    assert facts(car) == wanted


def test_tacked_and_not_inspected_both_keep_the_car_off_the_road(cast, car, arm):
    sentences = {}
    for done in (1, 3):
        over(*(arm[key] for key in STEPS[:done]))
        found = verdict_of(car, NOW)
        assert found.do_not_drive
        sentences[done] = [reason.sentence for reason in found.reasons if "A weld" in reason.sentence]
    assert sentences == {
        1: ["A weld is only tacked: “Offer up the tacked arm and check the fit” comes next."],
        3: ["A weld is not inspected: “Inspect the weld and crack-test it” comes next."],
    }


def test_dropping_the_inspection_does_not_inspect_the_weld(cast, car, arm):
    over(*(arm[key] for key in STEPS[:3]))
    steps.drop(arm["inspect"], by=cast.owner, at=NOW, reason="no dye left")
    assert facts(car) == [("uninspected", "Weld the arm", True)]
    (reason,) = [each for each in verdict_of(car, NOW).reasons if "A weld" in each.sentence]
    assert reason.sentence == ("A weld is not inspected: no job comes next. “Weld the arm” was the last of it.")
    assert (reason.kind, reason.ref) == ("job", arm["weld"].pk)


def test_a_recipe_put_on_without_its_last_steps_leaves_the_weld_tacked(cast, car):
    made = put(ARM, car, by=cast.owner, at=NOW, leave_out=["fit-check", "weld", "inspect"])
    over(made["tack"])
    assert [state for state, _, _ in facts(car)] == ["tacked"]


def test_an_inspection_put_on_later_clears_it_on_its_own_systems_only(cast, car, arm):
    over(*(arm[key] for key in STEPS[:3]))
    steps.drop(arm["inspect"], by=cast.owner, at=NOW, reason="no dye left")
    elsewhere = JobFactory(vehicle=car, weld="inspected", systems=["cage"])
    other_car = JobFactory(vehicle__garage=cast.garage, weld="inspected", systems=["steering"])
    before = JobFactory(vehicle=car, weld="inspected", systems=["steering"])
    over(elsewhere, other_car, hours=2)
    over(before, hours=-2)
    assert [state for state, _, _ in facts(car)] == ["uninspected"]
    over(JobFactory(vehicle=car, weld="inspected", systems=["steering"]), hours=1)
    assert facts(car) == []


def test_a_weld_that_was_made_again_is_inspected_again(car, arm):
    over(*arm.values())
    over(arm["weld"], hours=1)
    assert facts(car) == [("uninspected", "Inspect the weld and crack-test it", False)]
    over(arm["inspect"], hours=2)
    assert facts(car) == []


def test_welds_take_one_query_for_one_car_and_for_five(cast, car, django_assert_num_queries):
    cars = [car, *(VehicleFactory(garage=cast.garage) for _ in range(4))]
    for each in cars:
        over(put(ARM, each, by=cast.owner, at=NOW)["tack"])
    for held in ([car], cars):
        with django_assert_num_queries(1):
            assert len(weld_facts(held)) == len(held)


def test_the_crack_test_asks_by_whom(arm):
    asks = HoldPoint.objects.filter(job=arm["inspect"]).exclude(asks="")
    assert [point.asks for point in asks] == ["Done by whom, with what"]


def joint(car, name, **more):
    return Joint.objects.create(vehicle=car, name=name, **more)


def test_a_card_gets_the_joints_that_its_job_opens_with_their_figures(cast, car):
    steering = {"systems": ["steering"], "opened_by": ["joint_opened"]}
    joint(car, "Tie-rod end", figure_mnm=50_000, figure_from="shop manual", thread="M12×1.25",
          klass="10.9", wrench="20-100 N·m", **steering)  # fmt: skip
    joint(car, "Arm to upright", **steering)
    joint(car, "Retired", retired_at=NOW, **steering)
    joint(car, "Caliper", systems=["brakes"], opened_by=["joint_opened"])
    joint(car, "Wheel nuts", opened_by=["wheel_off"])
    joint(VehicleFactory(garage=cast.garage), "Of another car", **steering)
    job = JobFactory(vehicle=car, systems=["steering"], kinds=["joint_opened"])
    plain = JobFactory(vehicle=car)
    rows = torque_rows(cast.garage, [job, plain])
    assert [str(row) for row in rows[job.pk]] == [
        f"Arm to upright: {NO_FIGURE}",
        "Tie-rod end: 50 N·m (M12×1.25, 10.9, shop manual, 20-100 N·m)",
    ]
    assert plain.pk not in rows


def test_figures_stand_in_the_garages_unit_and_take_one_query(cast, car, django_assert_num_queries):
    cast.garage.units = "imperial"
    joint(car, "Wheel nuts", figure_mnm=115_245, opened_by=["wheel_off"])
    jobs = [JobFactory(vehicle=car, kinds=["wheel_off"]) for _ in range(5)]
    with django_assert_num_queries(1):
        rows = torque_rows(cast.garage, jobs)
    # 85 lbf·ft = 115.2445256 N·m, from the exact pound-force and foot.
    assert {row.figure for found in rows.values() for row in found} == {"85 lbf·ft"}
    assert len(rows) == 5
