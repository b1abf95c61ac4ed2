"""The verdict of a garage's cars: from its rows, for one car and for fifty in the same queries."""

import uuid
from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.verdict.engine import Severity
from builds.verdict.facts.verdict import verdict_of, verdicts
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from tests.factories import (
    NOW,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    StationFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db
NOT_KNOWN = (
    "Not known to be fit: nobody has said which readings and gear it must have and its scrutineering list is not made"
)


def span(job, state):
    Span.objects.create(job=job, state=state, by=job.made_by, from_at=NOW, until_at=NOW + timedelta(hours=1))


def sentences(vehicle):
    return [each.sentence for each in verdict_of(vehicle, NOW).reasons]


def test_a_car_with_nothing_open_is_not_known_to_be_fit(cast):
    found = verdict_of(VehicleFactory(garage=cast.garage), NOW)
    assert (found.state, found.sentence, found.reasons) == ("not_known", NOT_KNOWN, ())
    assert found.at == NOW


def test_each_row_that_stands_in_the_way(cast):
    car = VehicleFactory(garage=cast.garage, state="stands")
    JobFactory(vehicle=car, title="Fit the fan", rank="needed")
    JobFactory(vehicle=car, title="Bleed the brakes", rank="safety", systems=["brakes"])
    arm = JobFactory(vehicle=car, title="Refit the arm", rank="safety", systems=["steering"], state="in_hand")
    HoldPointFactory(job=arm, what="Every joint torqued")
    done = JobFactory(vehicle=car, title="Swap a hose", rank="safety", systems=["brakes"], state="done")
    span(done, "in_hand")
    JobFactory(vehicle=car, title="Wax it", rank="wanted", systems=["body"])
    assert sentences(car) == [
        "“Refit the arm” is in hand: take its joints as loose.",
        "Hold point not signed on “Refit the arm”: Every joint torqued",
        "“Swap a hose” is done, but nobody has signed it.",
        "Open safety job: “Bleed the brakes”",
        "Open needed job: “Fit the fan”",
        "The car is on stands.",
    ]


def test_of_equal_reasons_what_was_found_comes_first(cast):
    car = VehicleFactory(garage=cast.garage)
    strip = JobFactory(vehicle=car, title="Strip", rank="safety", systems=["brakes"])
    JobFactory(vehicle=car, title="Bleed", rank="safety", systems=["brakes"])
    JobFactory(vehicle=car, title="Split boot", rank="safety", systems=["steering"], found_in=strip)
    assert sentences(car) == [f"Open safety job: “{title}”" for title in ("Split boot", "Strip", "Bleed")]


def test_a_signed_job_matters_no_more_unless_its_hold_point_was_left(cast):
    car = VehicleFactory(garage=cast.garage)
    job = JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"], state="signed")
    assert sentences(car) == []
    HoldPointFactory(job=job, what="Crack test")
    assert sentences(car) == ["Hold point not signed on “Weld the arm”: Crack test"]


def test_begun_and_dropped_is_not_forgotten_and_dropped_unbegun_is(cast):
    car = VehicleFactory(garage=cast.garage)
    begun, unbegun = (
        JobFactory(vehicle=car, title=title, rank="safety", systems=["steering"], state="dropped")
        for title in ("Rack out", "New boots")
    )
    span(begun, "in_hand")
    span(unbegun, "open")
    assert sentences(car) == ["“Rack out” was begun and dropped: nobody signed that the car is whole again."]


def test_held_before_it_was_begun_is_open_and_put_down_without_history_is_loose(cast):
    car = VehicleFactory(garage=cast.garage)
    held = JobFactory(vehicle=car, title="Held", rank="safety", state="held")
    span(held, "open")
    JobFactory(vehicle=car, title="Untold", rank="safety", state="waiting")
    assert sentences(car) == [
        "“Untold” was put down half done: take its joints as loose.",
        "Open safety job: “Held”",
    ]


@pytest.fixture
def recipe_jobs(cast):
    """Two finished jobs of one recipe: the arm opened, then refitted under a signed hold point."""
    car, batch = VehicleFactory(garage=cast.garage), uuid.uuid4()
    opened, refit = (
        JobFactory(
            vehicle=car, title=title, rank="safety", systems=["steering"],
            kinds=["joint_opened"], state="done", recipe="arm", batch=batch,
        )
        for title in ("Arm off", "Arm on")
    )  # fmt: skip
    point = HoldPointFactory(job=refit, signed_by=cast.helper, signed_at=NOW)
    LinkFactory(before=opened, after=refit)
    return opened, refit, point


def test_a_recipes_hold_point_looks_at_what_was_done_before_it(recipe_jobs):
    opened, _, _ = recipe_jobs
    assert sentences(opened.vehicle) == []


def test_a_hold_point_left_out_leaves_the_joint_unsigned(recipe_jobs):
    opened, _, point = recipe_jobs
    point.delete()
    assert sentences(opened.vehicle) == [
        "“Arm off” is done, but nobody has signed it.",
        "“Arm on” is done, but nobody has signed it.",
    ]


def test_a_hold_point_dropped_with_its_job_looks_at_nothing(recipe_jobs):
    opened, refit, point = recipe_jobs
    point.signed_by = point.signed_at = None
    point.save()
    refit.state = "dropped"
    refit.save()
    assert sentences(opened.vehicle) == ["“Arm off” is done, but nobody has signed it."]


def test_a_recipes_job_that_leaves_no_joint_needs_no_signature(recipe_jobs):
    opened, _, point = recipe_jobs
    point.delete()
    opened.vehicle.jobs.update(kinds=["wheel_off"])
    assert sentences(opened.vehicle) == []


def test_a_stripped_car_keeps_its_station(cast):
    car = VehicleFactory(garage=cast.garage)
    bay = StationFactory(garage=cast.garage, name="Bay")
    first = JobFactory(vehicle=car, title="Strip", rank="wanted", state="signed")
    last = JobFactory(vehicle=car, title="Wheels on", rank="wanted")
    StationHold.objects.create(station=bay, first=first, last=last)
    span(first, "in_hand")
    (reason,) = verdict_of(car, NOW).reasons
    assert (reason.severity, reason.sentence, reason.ref) == (
        Severity.STRIPPED,
        "Stripped in Bay. It stays there until “Wheels on” is done.",
        last.pk,
    )


def test_cars_of_others_and_cars_gone_are_left_out(cast):
    mine = VehicleFactory(garage=cast.garage)
    VehicleFactory(garage=cast.garage, gone_at=NOW)
    JobFactory(vehicle=VehicleFactory(garage=cast.stranger.garage), rank="safety")
    found = verdicts(cast.garage, NOW)
    assert list(found) == [mine.pk]
    assert not found[mine.pk].reasons


def fleet(garage, cars: int) -> None:
    for _ in range(cars):
        car = VehicleFactory(garage=garage)
        job = JobFactory(vehicle=car, rank="safety", systems=["steering"], state="in_hand")
        HoldPointFactory(job=job)
        StationHold.objects.create(station=StationFactory(garage=garage), first=job, last=JobFactory(vehicle=car))


def test_the_same_queries_for_one_car_and_for_twelve(cast):
    fleet(cast.garage, 1)
    with CaptureQueriesContext(connection) as one:
        verdicts(cast.garage, NOW)
    fleet(cast.garage, 11)
    with CaptureQueriesContext(connection) as twelve:
        assert len(verdicts(cast.garage, NOW)) == 12
    assert len(one) == len(twelve) <= 19


@pytest.mark.parametrize(
    ("recipe", "kinds", "loose"),
    [
        ("corner-weighting", ["tyre_or_pressure"], False),
        ("corner-weighting", ["tyre_or_pressure", "wheel_off"], True),
        ("corner-weighting", [], True),
        ("", ["tyre_or_pressure"], True),
    ],
)
def test_only_a_recipe_says_that_work_put_down_half_done_left_no_joint(cast, recipe, kinds, loose):
    loading = JobFactory(
        vehicle=VehicleFactory(garage=cast.garage), title="Load the car", systems=["wheels"], rank="safety",
        recipe=recipe, kinds=kinds, state="waiting",
    )  # fmt: skip
    assert verdict_of(loading.vehicle, NOW).do_not_drive is loose


def test_an_open_fault_that_could_hurt_somebody_stops_the_car_and_planned_work_does_not(cast):
    def stops(title, **more):
        told = {"rank": "safety", "systems": ["fuel"], **more}
        row = JobFactory(vehicle=VehicleFactory(garage=cast.garage), title=title, **told)
        return verdict_of(row.vehicle, NOW).do_not_drive

    during = JobFactory(vehicle=VehicleFactory(garage=cast.garage), title="Tidy up")
    assert stops("Fuel smell in the boot - look!")
    assert stops("New hose", found_in=during)
    assert not stops("New hose")
    assert not stops("Fuel smell in the boot", recipe="fuel-pump-lines")
    assert not stops("Radio crackles", rank="needed", systems=["electrics"])


def test_wanted_work_of_which_nobody_says_what_it_touches_is_not_nothing(cast):
    row = JobFactory(vehicle=VehicleFactory(garage=cast.garage), title="Sort it", rank="wanted", systems=[])
    JobFactory(vehicle=row.vehicle, title="Weigh it", rank="wanted", systems=[], measures=["corner_weights"])
    assert sentences(row.vehicle) == ["“Sort it” is to be done, and nobody has said what it touches."]
    row.state = "in_hand"
    row.save()
    assert sentences(row.vehicle) == ["“Sort it” was begun, and nobody has said what it touches."]
    row.systems = ["body"]
    row.save()
    assert verdict_of(row.vehicle, NOW).reasons == ()
