"""Who taps Finish for another is told first that he then has a hand in it and cannot sign for it."""

import pytest

from builds.steps.actions import steps
from garage.models import Membership
from tests.factories import NOW, HoldPointFactory, JobFactory, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
SAID = "Tove worked on it, and whoever finishes it counts as a hand and cannot look at it afterwards."


@pytest.fixture
def car(cast):
    Membership.objects.filter(garage=cast.garage).update(may_sign=True)
    return VehicleFactory(garage=cast.garage, name="Heron")


def begun(cast, car, *, by="helper", **more):
    job = JobFactory(vehicle=car, made_by=cast.owner, **more)
    steps.start(job, by=getattr(cast, by), at=NOW)
    return job


def one_tap(client, job, path):
    """Whether Finish is a button that finishes it at once, and not the way to its form."""
    page = client.get(path).content.decode()
    assert f'href="/jobs/{job.pk}/finish/"' in page or f'action="/jobs/{job.pk}/finish/"' in page
    return f'action="/jobs/{job.pk}/finish/"' in page


def of_recipe(car, cast, **more):
    return begun(cast, car, recipe="arm", kinds=["joint_opened"], systems=["steering"], rank="safety", **more)


@pytest.mark.parametrize("path", ["/", "/jobs/{pk}/", "/cars/{car}/"])
def test_a_tap_for_another_leads_to_what_it_costs_and_ones_own_does_not(cast, owner, helper, car, path):
    job = of_recipe(car, cast)
    here = path.format(pk=job.pk, car=car.pk)
    assert not one_tap(owner, job, here)
    assert one_tap(helper, job, here)
    assert SAID in words(owner.get(f"/jobs/{job.pk}/finish/").content.decode())
    assert SAID not in words(helper.get(f"/jobs/{job.pk}/finish/").content.decode())


@pytest.mark.parametrize("path", ["/", "/jobs/{pk}/", "/cars/{car}/"])
def test_whoever_works_alone_gives_up_nothing_by_finishing_his_own(cast, owner, car, path):
    Membership.objects.filter(garage=cast.garage).exclude(pk=cast.owner.pk).update(left_at=NOW)
    job = of_recipe(car, cast, by="owner")
    assert one_tap(owner, job, path.format(pk=job.pk, car=car.pk))
    assert "counts as a hand" not in words(owner.get(f"/jobs/{job.pk}/finish/").content.decode())


def test_a_hold_point_at_its_end_is_reason_enough(cast, owner, car):
    job = begun(cast, car, recipe="arm", systems=["cooling"], rank="needed")
    assert one_tap(owner, job, "/")
    HoldPointFactory(job=job, what="Hoses dry")
    assert not one_tap(owner, job, "/") and not one_tap(owner, job, f"/jobs/{job.pk}/")
    assert SAID in words(owner.get(f"/jobs/{job.pk}/finish/").content.decode())


def test_what_nobody_looks_at_afterwards_says_nothing(cast, owner, car):
    job = begun(cast, car, title="Wax the doors", rank="wanted", systems=["body"])
    assert "counts as a hand" not in words(owner.get(f"/jobs/{job.pk}/finish/").content.decode())
