"""Brakes that are opened are bled before the plan ends."""

import pytest

from builds.steps.actions import hold_points, steps
from builds.steps.engine.cautions import cautions_for
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import require, take
from tests.builds.readings.remeasure_kit import HOUR, add, again, before, finish
from tests.factories import NOW, SkillFactory, VehicleFactory

pytestmark = pytest.mark.django_db


def test_brakes_that_are_opened_are_bled_whatever_the_car_must_have(cast):
    """Also where nobody has ever bled it, and from before the work is begun until it was."""
    car = VehicleFactory(garage=cast.garage)
    hose = add(car, cast.owner, "Brake hose chafed", "hydraulics_opened", systems=["brakes"])
    (job,) = again(car)
    assert job.title == "Bleed the brakes and check for leaks"
    assert before(job) == {"Brake hose chafed"}
    finish(hose, cast.owner)
    assert again(car) == [job]
    take(car, "brake_bleed", cast.helper, at=NOW + 3 * HOUR)
    job.refresh_from_db()
    assert again(car) == [job] and job.looked_for
    finish(add(car, cast.owner, "New caliper", "hydraulics_opened"), cast.owner, hours=4)
    assert len(again(car)) == 2


def test_bleeding_is_for_safety_and_somebody_else_looks_at_it(cast, owner):
    """As the bleeding of the recipe; what is measured beside it is a job of its own, as grave as what it is read on."""
    car = VehicleFactory(garage=cast.garage)
    require(car, cast.owner, "wheel_torque", "coolant_bleed")
    take(car, "wheel_torque", cast.owner)
    cast.helper.skills.add(SkillFactory(garage=cast.garage, slug="brakes", name="Brakes"))
    finish(add(car, cast.owner, "Fluid changed", "hydraulics_opened", systems=["brakes"]), cast.owner)
    bleed, measure = again(car)
    assert (bleed.rank, bleed.systems, bleed.measures) == ("safety", ["brakes"], ["brake_bleed"])
    assert (bleed.skill.slug, bleed.likely_minutes) == ("brakes", 60)
    assert (measure.title, measure.rank) == ("Measure again: wheel torque", "safety")
    assert "brakes" in {caution.key for caution in cautions_for(bleed.systems)}
    (point,) = bleed.hold_points.all()
    assert "Other work asks for it: it comes and goes by itself." in owner.get(f"/jobs/{bleed.pk}/").content.decode()
    take(car, "brake_bleed", cast.helper, at=NOW + 3 * HOUR)
    with pytest.raises(Refused, match="worked on this"):
        hold_points.sign(point, by=cast.helper, at=NOW + 4 * HOUR)
    assert hold_points.sign(point, by=cast.owner, at=NOW + 4 * HOUR)
    assert Job.objects.get(pk=bleed.pk).state == "signed" and again(car) == [measure]


def test_brakes_are_bled_by_whoever_says_so_and_not_where_the_work_was_dropped(cast):
    car = VehicleFactory(garage=cast.garage)
    hose = add(car, cast.owner, "New hose", "hydraulics_opened")
    bleed = add(car, cast.owner, "Bleed it", measures=["brake_bleed"])
    assert again(car) == []
    assert before(bleed) == {"New hose"}
    steps.drop(bleed, by=cast.owner, at=NOW + HOUR, reason="not needed")
    assert len(again(car)) == 1
    steps.drop(hose, by=cast.owner, at=NOW + HOUR, reason="not needed")
    assert again(car) == []


def test_on_a_cable_nothing_of_the_brakes_is_opened(cast):
    car = VehicleFactory(garage=cast.garage)
    add(car, cast.owner, "New pair of rear shocks", "spring_change", "joint_opened", systems=["suspension"])
    cable = add(car, cast.owner, "Replace handbrake cable", systems=["brakes"])
    assert again(car) == [] and before(cable) == set()


def test_a_cracked_upright_is_seen_to_before_hubs_go_into_it(cast):
    """New hubs written down by hand come apart and go together in one job; the strip of a recipe comes first."""
    car = VehicleFactory(garage=cast.garage)
    hubs = add(car, cast.owner, "Fit front hubs", "wheel_off", "hub_opened")
    crack = add(car, cast.owner, "Upright cracked, front left", "hub_opened", "bushing_or_mount", "joint_opened")
    assert before(hubs) == {"Upright cracked, front left"}
    assert before(crack) == set()
