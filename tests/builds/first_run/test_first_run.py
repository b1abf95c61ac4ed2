"""The first garage of somebody who is in none, with what a first plan rests on."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.first_run.forms import saturday_after_weeks
from builds.readings.engine.required import SENSIBLE
from builds.readings.models.target import RequiredReadings, Target
from garage import zones
from garage.actions.sign_in import UNNAMED
from garage.models import Entry, Event, Garage, MemberHours, Membership, Skill, Station, Vehicle
from tests.conftest import Browserless
from tests.factories import NOW, PersonFactory

FORM = {
    "name": "Quayside Lock-up",
    "time_zone": "Europe/Lisbon",
    "units": "imperial",
    "paper": "letter",
    "currency": "EUR",
}
LEAVES = datetime(2027, 5, 1, 7, 0, tzinfo=ZoneInfo("Pacific/Auckland"))
WHOLE = {
    **FORM,
    "time_zone": "Pacific/Auckland",
    "owner": "Tove",
    "car": "Heron",
    "usual": "on",
    "event": "Saltmarsh Hill Climb",
    "leaves_at": f"{LEAVES:%Y-%m-%dT%H:%M}",
    "travel_minutes": "1:30",
    "mon_fri": "1830-2200",
    "sat": "9am-5pm",
    "sun": "",
}


@pytest.fixture
def newcomer(db, now) -> Browserless:
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


def test_car_event_and_hours_come_along_and_the_list_of_jobs_is_next(newcomer):
    answer = newcomer.press("/first-run/", WHOLE)
    car = Vehicle.objects.get()
    assert answer["Location"] == f"/cars/{car.pk}/jobs/paste/?next=%2Fplan%2F"
    assert (car.name, car.tape) == ("Heron", "green")
    event = Event.objects.get()
    assert (event.name, event.due_at, event.gates_at) == (WHOLE["event"], LEAVES, LEAVES + timedelta(minutes=90))
    assert event.ends_at - event.gates_at == timedelta(hours=10)
    assert Entry.objects.get().vehicle == car
    week = set(MemberHours.objects.values_list("weekday", "from_minute", "until_minute"))
    assert week == {(day, 1110, 1320) for day in range(5)} | {(5, 540, 1020)}
    page = newcomer.get(answer["Location"]).content.decode()
    assert 'name="next" value="/plan/"' in page and f"/recipes/several/?car={car.pk}" in page


def test_the_usual_readings_are_taken_by_a_tick_and_not_else(newcomer):
    drawn = newcomer.get("/first-run/").context["form"]
    assert not drawn["usual"].value()
    newcomer.press("/first-run/", WHOLE)
    car = Vehicle.objects.get()
    assert RequiredReadings.objects.get(vehicle=car).kinds == list(SENSIBLE)
    camber = Target.objects.on(car).of("camber").get(field="fl")
    assert (camber.amount, camber.second, camber.mark, camber.typed) == (-5_000, 1_000, "practice", "-5")


def test_without_the_tick_nothing_judges_the_car(newcomer):
    newcomer.press("/first-run/", {**WHOLE, "usual": ""})
    assert Vehicle.objects.exists() and not RequiredReadings.objects.exists() and not Target.objects.exists()


def test_everything_can_be_left_empty(newcomer):
    skipped = {**WHOLE, **dict.fromkeys(("name", "owner", "car", "usual", "event", "leaves_at", "mon_fri", "sat"), "")}
    assert newcomer.press("/first-run/", skipped)["Location"] == "/"
    assert str(Garage.objects.get()) == "Ines's garage"
    assert not (Vehicle.objects.exists() or Event.objects.exists() or MemberHours.objects.exists())


def test_what_is_drawn_is_an_example_that_can_be_sent_as_it_is(newcomer):
    drawn = newcomer.get("/first-run/").context["form"]
    assert not drawn["mon_fri"].help_text  # the example stands in the field itself
    sent = {name: drawn[name].value() for name in ("travel_minutes", "mon_fri", "sat", "sun")}
    leaves = f"{drawn['leaves_at'].value():%Y-%m-%dT%H:%M}"
    newcomer.press("/first-run/", {**FORM, **sent, "leaves_at": leaves, "car": "Heron", "event": "Saltmarsh"})
    assert MemberHours.objects.count() == 6
    left = Event.objects.get().due_at.astimezone(ZoneInfo("Europe/Lisbon"))
    assert (left.weekday(), f"{left:%H:%M}") == (5, "07:00")
    assert timedelta(weeks=3) - timedelta(days=1) < left - NOW < timedelta(weeks=4)


def test_the_first_saturday_when_three_weeks_are_over():
    for days in range(7):
        today = NOW.date() + timedelta(days=days)
        saturday = saturday_after_weeks(3, today)
        assert saturday.weekday() == 5 and 21 <= (saturday - today).days <= 27


def test_nobody_is_called_owner(db, now):
    client = Browserless()
    client.force_login(PersonFactory(name=UNNAMED))
    assert not client.get("/first-run/").context["form"]["owner"].value()


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
        ({"name": "x" * 10_000}, "name", "at most 80 characters"),
        ({"time_zone": "Mars/Olympus"}, "time_zone", "Mars/Olympus is not a time zone"),
        ({"units": "cubits"}, "units", "Select a valid choice."),
        ({"paper": "a3"}, "paper", "Select a valid choice."),
        ({"car": "x" * 41}, "car", "at most 40 characters"),
        ({"car": ""}, "car", "name it, or leave them unticked"),
        ({"leaves_at": ""}, "leaves_at", "Say when the car leaves"),
        ({"leaves_at": "2020-05-01T07:00"}, "leaves_at", "That is over already"),
        ({"leaves_at": "soon"}, "leaves_at", "Write a date and a time"),
        ({"travel_minutes": "far"}, "travel_minutes", "90 min"),
        ({"mon_fri": "evenings"}, "mon_fri", "Write hours such as 18:30-22:00"),
        ({"sat": "22:00-9:00"}, "sat", "runs backwards"),
    ],
)
def test_what_is_wrong_is_said_at_the_field_and_what_was_typed_stays(newcomer, wrong, field, sentence):
    sent = {**WHOLE, **wrong}
    answer = newcomer.press("/first-run/", sent)
    assert answer.status_code == 422
    form = answer.context["form"]
    assert list(form.errors) == [field] and sentence in form.errors[field][0]
    assert {name: form[name].value() for name in sent if name not in ("usual", "key")} == {
        name: said for name, said in sent.items() if name != "usual"
    }
    assert form.where_open == (field in FORM)
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
