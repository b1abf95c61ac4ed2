"""What is bolted to a car comes off and goes on as work; where that is refused, its form says why."""

from datetime import timedelta

import pytest

from builds.steps.actions import jobs, steps
from builds.work.models.job import Job
from garage.models import Gear
from tests.builds.gear.gear_kit import FORM, piece
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
HELD = "To finish a job it must be open, in hand or put down; this one is held."


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def belts(car):
    return piece(car)


def test_others_do_not_go_on_while_the_job_that_fits_them_is_held(helper, cast, car, belts):
    helper.press(f"/gear/{belts.pk}/retire/", {"because": "cut"})
    steps.hold(Job.objects.get(title="Fit: Belts"), by=cast.owner, at=NOW + HOUR, reason="the eye bolts are bent")
    told = {**FORM, "name": "Other", "meaning": "until", "printed": "2030-12-31", "standard": ""}
    page = helper.press("/gear/add/", {**told, "whose": f"car-{car.pk}"})
    assert page.status_code == 422 and HELD in page.content.decode()
    assert HELD in helper.press(f"/gear/{belts.pk}/retire/", {"again": "1"}, follow=True).content.decode()
    assert not Gear.objects.in_use().filter(vehicle=car).exists()


def test_one_of_two_does_not_come_off_before_what_comes_first_on_the_car(helper, cast, car, belts):
    piece(car, name="Spare belts")
    jobs.add(car, by=cast.owner, at=NOW, title="Make it safe", work=(1, 2, 3), kinds=["crash"])
    page = helper.press(f"/gear/{belts.pk}/retire/", {"because": "cut"})
    assert page.status_code == 422 and "“Make it safe” has to be done first" in page.content.decode()
    assert Job.objects.count() == 1 and belts in Gear.objects.in_use()
