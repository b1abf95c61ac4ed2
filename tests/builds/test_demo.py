"""The demo garage from a button: for whoever has nothing in his own yet."""

import pytest

from builds.models import Job
from garage.models import Garage, Membership
from tests.conftest import Browserless
from tests.factories import PersonFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


def test_it_is_loaded_beside_an_empty_garage_and_planned(owner, cast):
    answer = owner.press("/demo/")
    assert answer["Location"] == "/"
    view = owner.get("/").context["view"]
    demo = Garage.objects.latest("pk")
    assert demo.name == "Quayside Lock-up" and demo != cast.garage
    assert view.has_plan and len(view.entries) > 1
    assert not Job.objects.in_garage(cast.garage).exists()


def test_it_is_not_loaded_over_cars_nor_by_a_helper(owner, helper, cast):
    assert helper.press("/demo/").status_code == 403
    VehicleFactory(garage=cast.garage)
    answer = owner.press("/demo/")
    assert answer.status_code == 403
    assert "There are cars in this garage already" in answer.content.decode()
    assert Garage.objects.count() == 2


def test_it_is_loaded_for_somebody_in_no_garage(db):
    person, client = PersonFactory(), Browserless()
    client.force_login(person)
    assert client.press("/demo/")["Location"] == "/"
    assert Membership.objects.get(person=person).role == "owner"
    assert client.get("/").context["view"].has_plan


def test_a_double_tap_loads_one(owner):
    data = {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    before = Garage.objects.count()
    for _ in range(2):
        assert owner.post("/demo/", data).status_code == 303
    assert Garage.objects.count() == before + 1


def test_nobody_is_sent_to_the_door(db):
    assert Browserless().press("/demo/").status_code == 302
