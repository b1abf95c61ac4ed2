"""The first garage of somebody who is in none."""

import pytest

from garage import zones
from garage.models import Garage, Membership, Skill, Station
from tests.conftest import Browserless
from tests.factories import PersonFactory

FORM = {
    "name": "Quayside Lock-up",
    "time_zone": "Europe/Lisbon",
    "units": "imperial",
    "paper": "letter",
    "currency": "EUR",
}


@pytest.fixture
def newcomer(db) -> Browserless:
    client = Browserless()
    client.force_login(PersonFactory(name="Ines"))
    return client


@pytest.mark.parametrize("path", ["/", "/plan/", "/cars/", "/people/", "/garage/"])
def test_every_page_leads_here(newcomer, path):
    assert newcomer.get(path)["Location"] == "/first-run/"
    assert newcomer.press(path)["Location"] == "/first-run/"


def test_account_and_way_out_stay_open(newcomer):
    assert newcomer.get("/account/").status_code == 200
    assert newcomer.get("/account/sign-in/").status_code == 200
    assert newcomer.post("/sign-out/")["Location"] == "/sign-in/"


def test_a_garage_is_founded_with_what_recipes_name(newcomer):
    drawn = newcomer.get("/first-run/").context["form"]
    assert (drawn["owner"].value(), drawn["time_zone"].value()) == ("Ines", zones.here())
    offered = str(drawn["time_zone"])
    assert 'value="Asia/Kolkata" data-was="Asia/Calcutta"' in offered and 'value="Asia/Calcutta"' not in offered
    assert newcomer.press("/first-run/", {**FORM, "owner": "Tove"})["Location"] == "/"
    garage = Garage.objects.get()
    assert {field: getattr(garage, field) for field in FORM} == FORM
    member = Membership.objects.get()
    assert (member.role, member.name) == ("owner", "Tove")
    assert set(member.skills.all()) == set(Skill.objects.in_garage(garage))
    skills = set(Skill.objects.in_garage(garage).values_list("slug", flat=True))
    assert skills == {"fit", "weld", "paint", "wire", "align", "brakes"}
    stations = dict(Station.objects.in_garage(garage).values_list("slug", "name"))
    assert set(stations) == {"bay", "driveway", "welder", "paint", "floor"}
    assert stations["floor"] == "Level floor"
    assert newcomer.get("/").status_code == 200


def test_afterwards_the_page_is_not_there(newcomer, owner):
    newcomer.press("/first-run/", FORM)
    for client in (newcomer, owner):
        assert client.get("/first-run/").status_code == 404
        assert client.press("/first-run/", FORM).status_code == 404
    assert Garage.objects.filter(name=FORM["name"], time_zone="Europe/Lisbon").count() == 1


def test_two_taps_found_one(newcomer):
    data = {**FORM, "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    assert newcomer.post("/first-run/", data)["Location"] == "/"
    assert newcomer.post("/first-run/", data)["Location"] == "/"
    assert Garage.objects.count() == 1


@pytest.mark.parametrize(
    ("wrong", "field", "sentence"),
    [
        ({"name": ""}, "name", "This field is required."),
        ({"name": "x" * 10_000}, "name", "at most 80 characters"),
        ({"time_zone": "Mars/Olympus"}, "time_zone", "Mars/Olympus is not a time zone"),
        ({"units": "cubits"}, "units", "Select a valid choice."),
        ({"paper": "a3"}, "paper", "Select a valid choice."),
    ],
)
def test_what_is_wrong_is_said_at_the_field(newcomer, wrong, field, sentence):
    answer = newcomer.press("/first-run/", {**FORM, **wrong})
    assert answer.status_code == 422
    assert sentence in answer.context["form"].errors[field][0]
    assert not Garage.objects.exists()


def test_nobody_founds_nothing(db):
    assert Browserless().get("/first-run/")["Location"].startswith("/sign-in/")
    assert Browserless().press("/first-run/", FORM)["Location"].startswith("/sign-in/")
    assert not Garage.objects.exists()


def test_where_this_computer_stands_by_an_older_name_and_where_it_does_not_say(monkeypatch, tmp_path):
    place = tmp_path / "zoneinfo" / "Asia" / "Calcutta"
    place.parent.mkdir(parents=True)
    place.touch()
    local = tmp_path / "localtime"
    local.symlink_to(place)
    monkeypatch.setattr(zones, "LOCAL", local)
    assert zones.here() == "Asia/Kolkata"
    monkeypatch.setattr(zones, "LOCAL", tmp_path / "nowhere")
    assert zones.here() == "UTC"
