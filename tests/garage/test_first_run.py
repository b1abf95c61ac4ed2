"""Somebody without a garage: led to one page, opens one garage, once."""

import pytest

from garage.models import Garage, Membership, Person, Skill, Station
from tests.conftest import Browserless

FORM = {"name": "Quayside Lock-up", "time_zone": "Europe/Lisbon", "units": "metric", "paper": "a4"}


@pytest.fixture
def new(db):
    client = Browserless()
    client.force_login(Person.objects.create_user("Ines"))
    return client


@pytest.mark.parametrize("path", ["/", "/plan/", "/cars/", "/people/"])
def test_every_page_leads_to_the_first(new, path):
    assert new.get(path)["Location"] == "/first-run/"


def test_a_garage_comes_furnished_and_its_founder_can_do_everything(new):
    assert new.press("/first-run/", FORM).status_code == 303
    garage = Garage.objects.get()
    assert (garage.name, garage.time_zone) == ("Quayside Lock-up", "Europe/Lisbon")
    member = Membership.objects.get()
    assert member.role == "owner"
    assert set(member.skills.all()) == set(Skill.objects.in_garage(garage))
    assert {"bay", "welder", "paint", "floor", "driveway"} == set(
        Station.objects.in_garage(garage).values_list("slug", flat=True)
    )
    assert new.get("/").status_code == 200


@pytest.mark.parametrize(
    "field, typed",
    [("name", ""), ("name", "x" * 10_000), ("time_zone", "Atlantis/Spire"), ("units", "cubits")],
)
def test_bad_input_is_said_at_the_field_and_opens_nothing(new, field, typed):
    answer = new.press("/first-run/", {**FORM, field: typed})
    assert answer.status_code == 422
    assert field in answer.context["form"].errors
    assert not Garage.objects.exists()


def test_whoever_has_a_garage_does_not_find_the_page(owner):
    assert owner.get("/first-run/").status_code == 404
    assert owner.press("/first-run/", FORM).status_code == 404


def test_a_double_tap_opens_one(new):
    sent = {**FORM, "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    first, second = new.post("/first-run/", sent), new.post("/first-run/", sent)
    assert {first.status_code, second.status_code} <= {303, 404}
    assert Garage.objects.count() == 1
