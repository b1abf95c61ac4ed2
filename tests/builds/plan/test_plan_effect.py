"""What a new job does to the plan, in a sentence."""

from dataclasses import replace
from datetime import timedelta

import pytest

from builds.plan.actions import plans
from builds.plan.facts.effect import effect_of
from builds.plan.facts.outcomes import outcomes
from builds.plan.facts.stored import shown, wall
from builds.plan.pages.effect import effect_words
from builds.steps.actions import nights
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.models import Night
from tests.builds.plan.plan_kit import enter, evenings, followed, planned
from tests.factories import NOW, JobFactory, SkillFactory, VehicleFactory

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, made_by=cast.owner, title="Fit the fan")
    return car


def effect(cast, car, **more):
    """What is told of a job that is written while a plan hangs on the wall."""
    if not shown(cast.garage):
        planned(cast.garage)
    stood = wall(cast.garage)
    return told(cast, JobFactory(vehicle=car, made_by=cast.owner, **{"title": "Bleed the brakes", **more}), stood)


def told(cast, job, stood):
    followed(cast.garage)
    effect = effect_of(cast.garage, job, stood=stood, at=NOW)
    return effect_words(effect) if effect else ""


def test_later_but_in_time(cast, car):
    enter(car)
    assert effect(cast, car) == ("Heron is then ready Tue 20:00 instead of Tue 19:00, still in time.")


def test_wanted_work_leaves_the_car_as_it_was(cast, car):
    enter(car)
    assert effect(cast, car, rank="wanted") == ("Heron is ready Tue 19:00 as before, still in time.")


def test_the_car_then_misses_its_event(cast, car):
    enter(car, NOW + DAY)
    assert effect(cast, car, likely_minutes=300, high_minutes=300) == (
        "Heron then does not make Saltmarsh Hill Climb: ready Wed 20:00, 3 h too late."
    )


def test_another_car_pays_for_it(cast, car):
    enter(car, NOW + DAY, weight=5)  # the same evening, and it counts for more
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    enter(moth, NOW + DAY, name="Kiln Lane Autocross")
    JobFactory(vehicle=moth, made_by=cast.owner, likely_minutes=180, high_minutes=180)
    assert effect(cast, car, rank="safety", likely_minutes=60).endswith("Moth then does not make Kiln Lane Autocross.")


def test_no_place_and_no_event_and_nothing_to_say(cast, car):
    weld = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    assert effect(cast, car) == ""
    enter(VehicleFactory(garage=cast.garage, name="Moth"))
    assert effect(cast, car) == "It is done Tue 21:00; Heron has no event ahead."
    assert effect(cast, car, skill=weld).startswith("It finds no place in the plan. Nobody has the skill “Welding”")
    assert effect(cast, car, state="done", finished_at=NOW) == ""


def test_the_first_job_of_a_car_is_compared_with_nothing(cast, car):
    enter(car)
    fan = car.jobs.get()
    assert told(cast, fan, None) == "Heron is then ready Tue 19:00, in time."
    assert told(cast, fan, wall(cast.garage)) == ""  # nothing took its place
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    enter(moth, name="Kiln Lane Autocross")
    assert effect(cast, moth) == "Moth is then ready Tue 20:00, in time."


def test_it_is_told_beside_the_plan_that_stood_and_not_beside_one_made_for_the_purpose(cast, car):
    """A plan on the wall that is later than a quick one: what is told of a job is what the wall says of the car."""
    enter(car, NOW + DAY)
    stood = planned(cast.garage)
    late = [replace(place, start=place.start + 96, end=place.end + 96) for place in stood.answer.placed]
    plans.put_up(
        cast.garage, plans.PlanningCase.of(stood), replace(stood.answer, placed=tuple(late)), before=stood, at=NOW
    )
    # A job more makes nothing sooner: the plan that was made with it is better.
    said = effect(cast, car)
    assert said == "The plan was made anew with it, and is better: Heron is ready Tue 20:00, in time."
    Job.objects.filter(title="Bleed the brakes").update(likely_minutes=600, high_minutes=600)
    stood = wall(cast.garage)
    assert told(cast, car.jobs.last(), stood) == (
        "Heron then does not make Saltmarsh Hill Climb: ready Thu 21:00, 28 h too late."
    )
    assert effect(cast, car, title="Swap the hub") == (
        "Heron is then ready Thu 22:00 instead of Thu 21:00, too late, as before."
    )


def test_a_job_in_the_middle_of_a_chain(cast, car):
    enter(car)
    first, last = car.jobs.get(), JobFactory(vehicle=car, made_by=cast.owner, title="Align")
    Link.objects.create(before=first, after=last)
    stood = planned(cast.garage).row.pk
    between = JobFactory(vehicle=car, made_by=cast.owner, title="Bleed the brakes", rank="wanted")
    Link.objects.create(before=first, after=between)
    Link.objects.create(before=between, after=last)
    assert told(cast, between, stood) == ("Heron is then ready Tue 21:00 instead of Tue 20:00, still in time.")


@pytest.fixture
def overnight(cast, car):
    """A job that is done in the night between the two days of Heron's event, long after it left."""
    event, hour = enter(car).event, DAY / 24
    event.people.add(cast.owner)
    due = event.gates_at + 24 * hour
    night = Night.objects.create(event=event, from_at=due - 14 * hour, until_at=due - 10 * hour, due_at=due)
    hub = JobFactory(vehicle=car, made_by=cast.owner, title="Hub bearing")
    nights.do_overnight(hub, night, by=cast.owner, at=NOW)
    return hub


def test_a_car_with_work_overnight_at_its_event_leaves_without_waiting_for_that(cast, car, overnight):
    assert effect(cast, car) == "Heron is then ready Tue 20:00 instead of Tue 19:00, still in time."
    (now,) = outcomes(cast.garage, shown(cast.garage), NOW).values()
    assert now.sentence == "ready Tue 20:00, in time."
    assert effect(cast, car, rank="wanted") == "Heron is ready Tue 20:00 as before, still in time."


def test_a_car_that_needs_nothing_before_it_leaves_does_not_wait_for_wanted_work(cast, car):
    enter(car)
    car.jobs.update(rank="wanted")
    assert effect(cast, car, rank="wanted") == "It is done Tue 20:00; Heron does not wait for it."


def test_what_is_not_known_is_not_said_to_miss_the_event(cast, car):
    enter(car)
    planned(cast.garage)
    stood, job = wall(cast.garage), JobFactory(vehicle=car, made_by=cast.owner, title="Bleed the brakes")
    followed(cast.garage)
    JobFactory(vehicle=car, made_by=cast.owner, title="Swap the hub")
    assert effect_words(effect_of(cast.garage, job, stood=stood, at=NOW)) == (
        "Whether Heron makes Saltmarsh Hill Climb is not known: “Swap the hub” came after this plan."
    )
