"""A coat whose recoat window has closed is sanded first, in one tap."""

import pytest

from builds.actions import cures
from builds.models import Job, Link
from garage.actions.refused import Refused
from tests.factories import NOW, JobFactory, LinkFactory, VehicleFactory


@pytest.fixture
def coat(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    primed = JobFactory(vehicle=car, title="Prime the arm", state="done", finished_at=NOW)
    after = JobFactory(vehicle=car, title="Paint the arm", systems=["steering"], rank="safety")
    LinkFactory(before=primed, after=after, cure="epoxy-primer", cure_stage="recoat_from")
    return after


def test_sanding_is_written_down_before_the_coat(helper, coat):
    answer = helper.press(f"/jobs/{coat.pk}/sand/")
    assert answer.status_code == 303
    sanding = Job.objects.exclude(pk=coat.pk).get(title__startswith="Sand")
    assert sanding.vehicle == coat.vehicle
    assert Link.objects.filter(before=sanding, after=coat).exists()


def test_who_may(cast, coat):
    assert cast.client("viewer").press(f"/jobs/{coat.pk}/sand/").status_code == 403
    assert cast.client("stranger").press(f"/jobs/{coat.pk}/sand/").status_code == 404
    assert Job.objects.filter(title__startswith="Sand").count() == 0


def test_sanding_twice_is_refused(cast, coat):
    cures.sand_first(coat, by=cast.owner, at=NOW)
    with pytest.raises(Refused):
        cures.sand_first(coat, by=cast.owner, at=NOW)
