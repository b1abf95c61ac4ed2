"""Robbing a car: what it is owed stands on its list at once, and goes when it is given back."""

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.readings.engine.why_not import lapse_words
from builds.readings.facts.readings import readings_of
from builds.shelf.actions import shelf
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from builds.work.models.owed import Owed, PartUse
from garage.actions.refused import Refused
from parts.actions.places import car_place, house_place
from tests.builds.readings.reading_kit import take
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def fleet(cast):
    class Fleet:
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        on_badger, on_heron = car_place(badger), car_place(heron)
        shelf, bench = PlaceFactory(garage=cast.garage), house_place(cast.garage, "bench")
        hubs = PartFactory(garage=cast.garage, name="Front hubs", single=True, systems=["wheels"], condition="good")

        @staticmethod
        def carry(verb, source, target, part=None, **more):
            part = part or Fleet.hubs
            return shelf.carry(part, verb, 1, source, target, by=cast.owner, at=NOW, **more)

        @staticmethod
        def undo(move):
            return shelf.undo(move, by=cast.owner, at=NOW)

    Fleet.carry("receive", house_place(cast.garage, "supplier"), Fleet.shelf)
    Fleet.carry("fit", Fleet.shelf, Fleet.on_badger, all_along=True)
    return Fleet


def test_a_robbed_car_is_owed_the_part_as_a_safety_job(fleet):
    job = JobFactory(vehicle=fleet.heron)
    fleet.carry("pull", fleet.on_badger, fleet.bench, job=job)
    owed = Owed.objects.get()
    assert (owed.vehicle, owed.job.rank, owed.job.state) == (fleet.badger, "safety", "open")
    assert PartUse.objects.get().job == job
    assert "Open safety job: “Owed: Front hubs”" in [
        reason.sentence for reason in verdict_of(fleet.badger, NOW).reasons
    ]
    assert f"for “{job}”" in owed.job.note


def test_giving_it_back_does_the_owed_job_which_then_waits_for_a_signature(fleet):
    fleet.carry("pull", fleet.on_badger, fleet.bench)
    fleet.carry("fit", fleet.bench, fleet.on_badger)
    owed = Owed.objects.get()
    assert owed.job.state == "done"
    assert not Owed.objects.open()
    assert verdict_of(fleet.badger, NOW).do_not_drive  # nobody has looked yet


def test_undoing_the_pull_takes_the_debt_back(fleet):
    fleet.undo(fleet.carry("pull", fleet.on_badger, fleet.bench))
    assert Owed.objects.get().job.state == "dropped"
    assert not verdict_of(fleet.badger, NOW).reasons


def test_undoing_the_giving_back_opens_the_debt_again(fleet):
    fleet.carry("pull", fleet.on_badger, fleet.bench)
    fleet.undo(fleet.carry("fit", fleet.bench, fleet.on_badger))
    owed = Owed.objects.open().get()
    assert owed.given_back is None


def test_taking_off_for_a_job_on_the_same_car_owes_nothing(fleet):
    job = JobFactory(vehicle=fleet.badger, systems=["wheels"])
    fleet.carry("pull", fleet.on_badger, fleet.bench, job=job)
    assert not Owed.objects.exists()
    job = JobFactory(vehicle=fleet.badger, systems=["body"])  # which says nothing of the hubs
    fleet.carry("fit", fleet.bench, fleet.on_badger)
    fleet.carry("pull", fleet.on_badger, fleet.bench, job=job)
    assert Owed.objects.exists()


def test_a_part_of_no_systems_that_hurt_is_owed_as_needed(fleet, cast):
    fan = PartFactory(garage=cast.garage, single=True, systems=["cooling"], condition="good")
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, fan)
    fleet.carry("fit", fleet.shelf, fleet.on_badger, fan)
    fleet.carry("pull", fleet.on_badger, fleet.bench, fan)
    assert Job.objects.get(title__startswith="Owed").rank == "needed"


@pytest.mark.parametrize(
    "condition, said",
    [
        ("unknown", "write down why it may be fitted"),
        ("repair", "to be repaired first"),
        ("scrap", "does not go on a car"),
    ],
)
def test_what_may_not_go_on_a_car_is_refused(fleet, cast, condition, said):
    part = PartFactory(garage=cast.garage, condition=condition)
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, part)
    with pytest.raises(Refused, match=said):
        fleet.carry("fit", fleet.shelf, fleet.on_heron, part)


def test_the_unknown_goes_on_with_a_written_reason_that_the_ledger_keeps(fleet, cast):
    part = PartFactory(garage=cast.garage, condition="unknown")
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, part)
    move = fleet.carry("fit", fleet.shelf, fleet.on_heron, part, unknown_because="crack tested by Ines")
    assert move.why == "crack tested by Ines"


@pytest.fixture
def wheels(fleet, cast):
    """Four of a counted part on Badger, and how many to move."""
    part = PartFactory(garage=cast.garage, name="Wheels", systems=["wheels"])

    def carry(verb, quantity, source, target, **more):
        return shelf.carry(
            part, verb, quantity, source, target, by=cast.owner, at=NOW, **more
        )  # fmt: skip

    carry("receive", 8, house_place(cast.garage, "supplier"), fleet.shelf)
    carry("fit", 4, fleet.shelf, fleet.on_badger)
    return carry


def test_two_are_owed_until_two_are_given_back(fleet, wheels):
    wheels("pull", 2, fleet.on_badger, fleet.bench)
    assert Owed.objects.get().job.title == "Owed: 2 pieces of Wheels"
    first = wheels("fit", 1, fleet.bench, fleet.on_badger)
    assert Owed.objects.open().exists()
    wheels("fit", 1, fleet.bench, fleet.on_badger)
    assert not Owed.objects.open().exists()
    fleet.undo(first)
    assert Owed.objects.open().exists()


def test_one_fitting_pays_two_debts_and_its_undoing_opens_both(fleet, wheels):
    wheels("pull", 2, fleet.on_badger, fleet.bench)
    wheels("pull", 1, fleet.on_badger, fleet.bench)
    paid = wheels("fit", 3, fleet.bench, fleet.on_badger)
    assert not Owed.objects.open().exists()
    fleet.undo(paid)
    assert Owed.objects.open().count() == 2


def test_what_was_fitted_before_pays_nothing(fleet, wheels):
    wheels("fit", 2, fleet.shelf, fleet.on_badger)
    wheels("pull", 1, fleet.on_badger, fleet.bench)
    assert Owed.objects.open().exists()


def test_another_part_fitted_for_the_owed_job_pays_it(fleet, cast):
    fleet.carry("pull", fleet.on_badger, fleet.bench)
    other = PartFactory(garage=cast.garage, name="Other hubs", single=True)
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, other)
    owed = Owed.objects.get()
    paid = fleet.carry("fit", fleet.shelf, fleet.on_badger, other, job=owed.job)
    assert not Owed.objects.open().exists()
    fleet.undo(paid)
    assert Owed.objects.open().exists()


@pytest.fixture
def measured(fleet, cast):
    """Toe and corner weights of Badger stand since yesterday, and so does its fuel leak test."""
    day = NOW - timedelta(days=1)
    for key in ("toe_front", "corner_weights", "fuel_leak"):
        take(fleet.badger, key, cast.owner, at=day)

    def states():
        lines = readings_of(cast.garage, [fleet.badger], NOW)[fleet.badger.pk].lines
        return [lines[key].state for key in ("toe_front", "corner_weights", "fuel_leak")]

    return states


def test_pulling_makes_the_donors_readings_void_and_undoing_it_lets_them_stand(fleet, measured):
    assert measured() == ["stands", "stands", "stands"]
    move = fleet.carry("pull", fleet.on_badger, fleet.bench)
    assert measured() == ["void", "void", "stands"]
    fleet.undo(move)
    assert measured() == ["stands", "stands", "stands"]


def test_a_reading_that_a_pull_made_void_says_that_the_part_came_off(fleet, measured, cast):
    fleet.carry("pull", fleet.on_badger, fleet.bench)
    line = readings_of(cast.garage, [fleet.badger], NOW)[fleet.badger.pk].lines["toe_front"]
    said = lapse_words(line, ZoneInfo(cast.garage.time_zone), NOW)
    assert "“Front hubs” came off Tue 2 Mar 17:00, and " in said


def test_giving_the_part_back_does_not_mend_the_readings(fleet, measured):
    fleet.carry("pull", fleet.on_badger, fleet.bench)
    fleet.carry("fit", fleet.bench, fleet.on_badger)
    assert measured() == ["void", "void", "stands"]


def test_the_page_of_the_pull_names_the_readings_before_it_is_done(fleet, measured, owner, now):
    page = owner.get(f"/parts/{fleet.hubs.pk}/move/pull/").content.decode()
    assert "These readings will be void: Corner weights, Front toe." in page


def test_what_nobody_said_of_a_part_its_name_says(fleet, cast, measured, owner, now):
    pump = PartFactory(garage=cast.garage, name="Fuel pump", single=True, condition="good")
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, pump)
    fleet.carry("fit", fleet.shelf, fleet.on_badger, pump, all_along=True)
    page = owner.get(f"/parts/{pump.pk}/move/pull/").content.decode()
    assert "it is owed Fuel pump (safety)" in page and "Fuel leak test" in page
    fleet.carry("pull", fleet.on_badger, fleet.bench, pump)
    assert Owed.objects.get().job.rank == "safety" and measured()[2] == "void"
    fleet.carry("fit", fleet.bench, fleet.on_badger, pump)
    assert verdict_of(fleet.badger, NOW).do_not_drive  # nobody has looked yet


def test_the_page_of_the_pull_names_what_a_whole_unit_weighs(fleet, cast, measured, owner, now):
    engine = PartFactory(garage=cast.garage, name="Engine", single=True, systems=["engine"])
    fleet.carry("receive", house_place(cast.garage, "supplier"), fleet.shelf, engine)
    fleet.carry("fit", fleet.shelf, fleet.on_badger, engine, all_along=True)
    page = owner.get(f"/parts/{engine.pk}/move/pull/").content.decode()
    fleet.carry("pull", fleet.on_badger, fleet.bench, engine)
    assert measured()[:2] == ["void", "void"]
    assert "These readings will be void: Corner weights, Front toe." in page
