"""One job that measures again: after all that makes void, moved, and gone when it was measured."""

import pytest

from builds.readings.actions import readings
from builds.readings.actions.remeasure import settle
from builds.readings.models.reading import Reading
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import jobs, links, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.waits import following
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import require, take
from tests.builds.readings.remeasure_kit import HOUR, add, again, before, finish
from tests.factories import NOW, HoldPointFactory, SkillFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    require(car, cast.owner, "toe_front", "wheel_torque")
    for key in ("toe_front", "wheel_torque"):
        take(car, key, cast.owner)
    return car


def test_nothing_void_makes_no_job(cast, car):
    add(car, cast.owner, "Polish")
    assert again(car) == []


def test_a_car_of_which_nobody_said_what_it_needs_gets_none(cast):
    car = VehicleFactory(garage=cast.garage)
    take(car, "toe_front", cast.owner)
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    assert again(car) == []


def test_two_jobs_that_void_are_followed_by_one_that_measures(cast, car):
    add(car, cast.owner, "New arm", "steering_arm")
    add(car, cast.owner, "New tie-rod end", "jam_nut")
    (job,) = again(car)
    assert job.title == "Measure again: front toe, wheel torque"
    assert (job.rank, job.systems, job.kinds) == ("safety", ["steering", "suspension", "wheels"], [])
    assert before(job) == {"New arm", "New tie-rod end"}


def test_it_moves_behind_work_that_comes_later(cast, car):
    arm = add(car, cast.owner, "New arm", "steering_arm")
    (job,) = again(car)
    springs = add(car, cast.owner, "Springs", "spring_change")
    assert again(car) == [job]
    assert before(job) == {"New arm", "Springs"}
    steps.drop(springs, by=cast.owner, at=NOW + HOUR, reason="sold them")
    assert before(job) == {"New arm"}
    finish(arm, cast.owner)
    assert again(car) == [job]


def test_it_is_linked_to_the_last_of_a_chain_only(cast, car):
    first = add(car, cast.owner, "Arm off", "joint_opened")
    last = add(car, cast.owner, "Arm on", "joint_opened")
    links.add(first, last)
    settle(car, by=cast.owner, at=NOW + HOUR)
    (job,) = again(car)
    assert before(job) == {"Arm on"}


def test_dropping_the_work_before_it_was_begun_takes_it_away(cast, car):
    arm = add(car, cast.owner, "New arm", "steering_arm")
    steps.drop(arm, by=cast.owner, at=NOW + HOUR, reason="not needed")
    assert again(car) == []
    assert Job.objects.on(car).taking_again().get().state == "dropped"


def test_work_dropped_half_way_leaves_it_to_measure(cast, car):
    arm = add(car, cast.owner, "New arm", "steering_arm")
    steps.start(arm, by=cast.owner, at=NOW + HOUR)
    steps.drop(arm, by=cast.owner, at=NOW + 2 * HOUR, reason="wrong arm")
    assert len(again(car)) == 1


def test_it_is_finished_with_the_last_reading(cast, car):
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    (job,) = again(car)
    take(car, "toe_front", cast.helper, at=NOW + 3 * HOUR)
    job.refresh_from_db()
    assert (job.state, job.title) == ("open", "Measure again: wheel torque")
    take(car, "wheel_torque", cast.helper, at=NOW + 4 * HOUR)
    job.refresh_from_db()
    assert job.state == "done" and again(car) == []
    reasons = verdict_of(car, NOW + 5 * HOUR).reasons
    assert not any("toe" in each.sentence for each in reasons if each.kind == "reading")


def test_work_that_only_waits_for_eyes_can_be_measured(cast, car):
    arm = add(car, cast.owner, "New arm", "steering_arm")
    HoldPointFactory(job=arm)
    finish(arm, cast.owner)
    arm.refresh_from_db()
    assert arm.state == "held" and len(again(car)) == 1
    for key in ("toe_front", "wheel_torque"):
        take(car, key, cast.helper, at=NOW + 3 * HOUR)
    assert again(car) == []


def test_a_reading_without_its_conditions_leaves_it_open(cast, car):
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    take(car, "wheel_torque", cast.helper, at=NOW + 3 * HOUR)
    take(car, "toe_front", cast.helper, at=NOW + 3 * HOUR, floor="")
    (job,) = again(car)
    assert job.title == "Measure again: front toe"
    take(car, "toe_front", cast.helper, at=NOW + 4 * HOUR)
    assert again(car) == []


def test_striking_out_the_reading_that_mended_it_brings_it_back(cast, car):
    finish(add(car, cast.owner, "New arm", "jam_nut"), cast.owner)
    take(car, "wheel_torque", cast.owner, at=NOW + 3 * HOUR)
    wrong = take(car, "toe_front", cast.owner, at=NOW + 3 * HOUR)
    assert again(car) == []
    readings.strike(wrong, by=cast.owner, at=NOW + 4 * HOUR, because="wrong side")
    (job,) = again(car)
    assert job.title == "Measure again: front toe"


def test_by_hand_it_is_neither_finished_nor_dropped_nor_opened_again(cast, car):
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    (job,) = again(car)
    with pytest.raises(Refused, match="finished with the last of them"):
        steps.finish(job, by=cast.owner, at=NOW + 3 * HOUR)
    with pytest.raises(Refused, match="goes by itself"):
        steps.drop(job, by=cast.owner, at=NOW + 3 * HOUR, reason="no")
    for key in ("toe_front", "wheel_torque"):
        take(car, key, cast.owner, at=NOW + 3 * HOUR)
    job.refresh_from_db()
    with pytest.raises(Refused, match="comes back by itself"):
        steps.reopen(job, by=cast.owner, at=NOW + 4 * HOUR, reason="no")


def test_work_opened_again_and_finished_again_voids_again(cast, car):
    arm = add(car, cast.owner, "New arm", "steering_arm")
    finish(arm, cast.owner)
    for key in ("toe_front", "wheel_torque"):
        take(car, key, cast.owner, at=NOW + 3 * HOUR)
    arm.refresh_from_db()
    steps.reopen(arm, by=cast.owner, at=NOW + 4 * HOUR, reason="nut loose")
    assert len(again(car)) == 1
    finish(arm, cast.owner, 5)
    assert len(again(car)) == 1


def test_a_recipe_that_measures_at_its_end_is_used_instead(cast, car):
    recipe = next(each for each in load_shipped() if each.key == "four-wheel-alignment")
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    made = recipes.put(recipe, car, by=cast.owner, at=NOW + 2 * HOUR)
    assert again(car) == []
    rod = add(car, cast.owner, "New tie-rod end", "jam_nut")
    assert again(car) == []
    assert made["front-toe"] in following(rod)
    assert made["wheel-torque"] in following(rod)


def test_work_after_the_recipes_measuring_gets_a_job_of_its_own(cast, car):
    recipe = next(each for each in load_shipped() if each.key == "four-wheel-alignment")
    made = recipes.put(recipe, car, by=cast.owner, at=NOW + HOUR)
    late = add(car, cast.owner, "Lower it", "spring_change")
    Link.objects.filter(before=late).delete()
    links.add(made["lock-check"], late)
    settle(car, by=cast.owner, at=NOW + HOUR)
    (job,) = again(car)
    assert before(job) == {"Lower it"}


def test_a_job_that_waits_for_it_is_not_put_before_it(cast, car):
    add(car, cast.owner, "New arm", "steering_arm")
    (job,) = again(car)
    late = add(car, cast.owner, "Fit the wheels for show")
    links.add(job, late)
    late.refresh_from_db()
    Job.objects.filter(pk=late.pk).update(kinds=["wheel_off"])
    settle(car, by=cast.owner, at=NOW + HOUR)
    assert before(job) == {"New arm"}


def test_whoever_aligns_and_the_level_floor_are_asked_for(cast, car):
    skill = SkillFactory(garage=cast.garage, slug="align", name="Alignment")
    StationFactory(garage=cast.garage, slug="floor", name="Level floor")
    cast.helper.works = True
    cast.helper.save()
    cast.helper.skills.add(skill)
    add(car, cast.owner, "New arm", "steering_arm")
    (job,) = again(car)
    assert job.skill == skill
    assert [str(use.station) for use in job.uses.all()] == ["Level floor"]


def test_the_same_call_twice_changes_nothing(cast, car):
    add(car, cast.owner, "New arm", "steering_arm")
    (job,) = again(car)
    assert settle(car, by=cast.owner, at=NOW + HOUR) == [job]
    assert len(again(car)) == 1 and len(before(job)) == 1


def test_readings_it_must_have_no_longer_take_it_away(cast, car):
    finish(add(car, cast.owner, "New arm", "steering_arm"), cast.owner)
    with pytest.raises(
        Refused,
        match="Front toe and Wheel torque are not as they must be: measure them first, or strike",
    ):
        require(car, cast.owner, at=NOW + 3 * HOUR)
    assert len(again(car)) == 1
    for taken in Reading.objects.all():
        readings.strike(taken, by=cast.owner, at=NOW + 3 * HOUR, because="nobody has a gauge for it")
    require(car, cast.owner, at=NOW + 3 * HOUR)
    assert again(car) == []


def test_work_moved_to_another_car_takes_it_along(cast, car):
    other = VehicleFactory(garage=cast.garage, name="Badger")
    require(other, cast.owner, "toe_front")
    take(other, "toe_front", cast.owner)
    arm = add(car, cast.owner, "New arm", "steering_arm")
    assert len(again(car)) == 1
    told = {"work": (1, 2, 3), "systems": [], "rank": "", "lowered_because": "", "stations": {}}
    told |= {"left_minutes": None, "kinds": ["steering_arm"]}
    jobs.change(arm, by=cast.owner, at=NOW + HOUR, vehicle=other, **told)
    assert again(car) == [] and before(again(other)[0]) == {"New arm"}
    with pytest.raises(Refused, match="stays there"):
        jobs.change(again(other)[0], by=cast.owner, at=NOW + HOUR, vehicle=car, **told)


def test_a_weighing_cut_loose_from_the_springs_leaves_a_weighing_after_them(cast, car):
    require(car, cast.owner, "corner_weights")
    take(car, "corner_weights", cast.owner)
    weigh = add(car, cast.owner, "Weigh it", measures=["corner_weights"])
    springs = add(car, cast.owner, "Springs", "spring_change")
    assert again(car) == []
    link = Link.objects.by_order().get(before=springs, after=weigh)
    links.cut(link, because="weighed twice on purpose", by=cast.owner, at=NOW)
    settle(car, by=cast.owner, at=NOW)
    (measured,) = again(car)
    assert measured.measures == ["corner_weights"]
    assert "Springs" in before(measured)


def test_what_a_recipe_tries_without_opening_anything_has_nothing_measured_twice(cast, car):
    recipe = next(one for one in load_shipped() if one.key == "seat-mounts-harness")
    require(car, cast.owner, "belt_torque", "belt_geometry")
    recipes.put(recipe, car, by=cast.owner, at=NOW)
    assert again(car) == []
    assert before(Job.objects.get(title="Try reach, way out and room round the helmet"))


def test_a_seat_job_that_nobody_described_may_have_moved_the_belts(cast, car):
    require(car, cast.owner, "belt_torque")
    add(car, cast.owner, "Seat", systems=["seat"])
    assert [job.measures for job in again(car)] == [["belt_torque"]]
