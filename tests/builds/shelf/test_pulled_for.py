"""What is pulled for a job that never asked for it is told alike on the part, the job and the list of what is owed."""

import pytest

from builds.shelf.actions import shelf
from builds.work.models.need import Need
from garage.models import Vehicle
from parts.actions.places import car_place
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Wren"), title="Damper weeps")


@pytest.fixture
def damper(cast):
    part = PartFactory(garage=cast.garage, name="Damper, front left")
    teal = VehicleFactory(garage=cast.garage, name="Teal")
    bin_four = PlaceFactory(garage=cast.garage)
    shelf.carry_out(part, "receive", quantity=1, target=bin_four, by=cast.owner, at=NOW)
    shelf.carry_out(part, "fit", quantity=1, source=bin_four, car=teal, all_along=True, by=cast.owner, at=NOW)
    return part


def pull(cast, part, job, **more):
    car = car_place(Vehicle.objects.get(name="Teal"))
    return shelf.carry_out(part, "pull", quantity=1, source=car, job=job, by=cast.owner, at=NOW, **more)


def test_the_job_has_it_and_the_part_says_for_whom_it_lies_there(cast, owner, job, damper):
    pull(cast, damper, job)
    need = Need.objects.get(job=job)
    assert (need.part, need.quantity, need.got_at) == (damper, 1, NOW)
    part = words(owner.get(f"/parts/{damper.pk}/").content.decode())
    assert "Damper weeps" in part.split("Who wants it")[1] and "No open job" not in part
    assert "Damper, front left" in words(owner.get(f"/jobs/{job.pk}/").content.decode())
    assert "Damper weeps" in words(owner.get("/owed/").content.decode())
    assert owner.get(f"/cars/{job.vehicle_id}/money/").status_code == 200


def test_undone_it_is_not_wanted_any_more(cast, job, damper):
    shelf.undo(pull(cast, damper, job), by=cast.owner, at=NOW)
    assert not Need.objects.filter(job=job).exists()


def test_what_was_asked_for_before_is_not_asked_for_twice_and_stays_wanted(cast, job, damper):
    asked = Need.objects.create(job=job, part=damper, what="damper", asked_at=NOW.replace(hour=1))
    move = pull(cast, damper, job)
    assert [need.pk for need in Need.objects.filter(job=job, got_at=NOW)] == [asked.pk]
    shelf.undo(move, by=cast.owner, at=NOW)
    assert Need.objects.get(job=job).got_at is None
