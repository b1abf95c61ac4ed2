"""What a new job does to the plan, in a sentence."""

from datetime import timedelta

import pytest

from builds.plan.actions.effect import effect_of
from builds.plan.pages.effect import effect_words
from builds.work.models.link import Link
from tests.builds.plan.plan_kit import enter, evenings
from tests.factories import NOW, JobFactory, SkillFactory, VehicleFactory

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, made_by=cast.owner, title="Fit the fan")
    return car


def added(car, cast, **more):
    return JobFactory(vehicle=car, made_by=cast.owner, title="Bleed the brakes", **more)


def effect(cast, job):
    found = effect_of(cast.garage, job, at=NOW)
    return effect_words(found) if found else ""


def test_later_but_in_time(cast, car):
    enter(car)
    assert effect(cast, added(car, cast)) == ("Heron is then ready Tue 20:00 instead of Tue 19:00, still in time.")


def test_wanted_work_leaves_the_car_as_it_was(cast, car):
    enter(car)
    assert effect(cast, added(car, cast, rank="wanted")) == ("Heron is ready Tue 19:00 as before, still in time.")


def test_the_car_then_misses_its_event(cast, car):
    enter(car, NOW + DAY)
    long = added(car, cast, likely_minutes=300, high_minutes=300)
    assert effect(cast, long) == ("Heron then does not make Saltmarsh Hill Climb: ready Wed 20:00, 3 h too late.")


def test_another_car_pays_for_it(cast, car):
    enter(car, NOW + DAY, weight=5)  # the same evening, and it counts for more
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    enter(moth, NOW + DAY, name="Kiln Lane Autocross")
    JobFactory(vehicle=moth, made_by=cast.owner, likely_minutes=180, high_minutes=180)
    brakes = added(car, cast, rank="safety", likely_minutes=60)
    assert effect(cast, brakes).endswith("Moth then does not make Kiln Lane Autocross.")


def test_no_place_and_no_event_and_nothing_to_say(cast, car):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    brakes = added(car, cast)
    assert effect(cast, brakes) == ""
    enter(VehicleFactory(garage=cast.garage, name="Moth"))
    assert effect(cast, brakes) == "It is done Tue 20:00; Heron has no event ahead."
    assert effect(cast, added(car, cast, skill=weld)).startswith(
        "It finds no place in the plan. Nobody has the skill “weld”"
    )
    assert effect(cast, added(car, cast, state="done", finished_at=NOW)) == ""


def test_leaving_a_job_out_of_a_chain_keeps_the_order_around_it(cast, car):
    enter(car)
    first, last = car.jobs.get(), JobFactory(vehicle=car, made_by=cast.owner, title="Align")
    between = added(car, cast, rank="wanted")
    Link.objects.create(before=first, after=between)
    Link.objects.create(before=between, after=last)
    assert effect(cast, between) == ("Heron is then ready Tue 21:00 instead of Tue 20:00, still in time.")
