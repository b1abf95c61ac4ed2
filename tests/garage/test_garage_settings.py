"""The garage itself: changed by its owner, read by the others."""

import re

import pytest

from tests.factories import VehicleFactory
from tests.garage.test_people import text

FORM = {
    "name": "Harbour Shed",
    "time_zone": "Asia/Kolkata",
    "units": "metric",
    "paper": "letter",
    "currency": "CHF",
}


def test_the_owner_changes_it(owner, cast):
    assert "America/Argentina/Ushuaia" in owner.get("/garage/").content.decode()
    assert owner.press("/garage/", FORM).status_code == 303
    cast.garage.refresh_from_db()
    assert {field: getattr(cast.garage, field) for field in FORM} == FORM


@pytest.mark.parametrize("who", ["helper", "viewer"])
def test_others_read_it(cast, who):
    client = cast.client(who)
    answer = client.get("/garage/")
    assert "Quayside Lock-up" in text(answer)
    assert "<input" not in answer.content.decode().split("<main", 1)[1]
    assert client.press("/garage/", FORM).status_code == 403
    cast.garage.refresh_from_db()
    assert cast.garage.name == "Quayside Lock-up"


def test_a_stranger_changes_his_own_alone(stranger, cast):
    stranger.press("/garage/", {**FORM, "pk": cast.garage.pk, "garage": cast.garage.pk})
    cast.garage.refresh_from_db()
    assert cast.garage.name == "Quayside Lock-up"


def test_nobody_signs_in_first(cast):
    assert cast.client("nobody").press("/garage/", FORM).status_code == 302


def test_a_zone_that_is_in_use_stays_choosable(owner, cast):
    cast.garage.time_zone = "Etc/GMT-3"
    cast.garage.save()
    assert '<option value="Etc/GMT-3" selected>' in owner.get("/garage/").content.decode()
    assert owner.press("/garage/", {**FORM, "time_zone": "Etc/GMT-3"}).status_code == 303


@pytest.mark.parametrize("zone", ["", "UTC+1", "../../etc/passwd", "x" * 10_000, "<b>"])
def test_what_is_no_zone_is_refused_at_the_field(owner, cast, zone):
    answer = owner.press("/garage/", {**FORM, "time_zone": zone})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["time_zone"]
    cast.garage.refresh_from_db()
    assert cast.garage.time_zone == "UTC"


def test_a_currency_is_three_letters(owner, cast):
    owner.press("/garage/", {**FORM, "currency": "nok"})
    cast.garage.refresh_from_db()
    assert cast.garage.currency == "NOK"
    for wrong in ("", "€", "EU", "EURO", "12E", "É" * 3):
        answer = owner.press("/garage/", {**FORM, "currency": wrong})
        assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["currency"])


def test_figures_typed_before_the_garage_changed_its_units_are_not_read_in_others(owner, cast):
    """85 into a form that asked for N·m are not 85 lbf·ft."""
    car = VehicleFactory(garage=cast.garage, name="Moth")
    address = f"/cars/{car.pk}/joints/add/"
    drawn = re.search(r'name="drawn_units" value="(\w+)"', owner.get(address).content.decode())
    sent = {"name": "Wheel nuts", "figure_mnm": "85", "figure_from": "manual", "drawn_units": drawn[1]}
    assert owner.press("/garage/", FORM | {"units": "imperial", "drawn_units": drawn[1]}).status_code == 303
    answer = owner.press(address, sent)
    assert answer.status_code == 422 and "reads in other units since this was drawn" in answer.content.decode()
    assert not car.joints.exists()
    assert owner.press(address, sent | {"drawn_units": "imperial"}).status_code == 303
    assert car.joints.get().figure_mnm == 115_245
