"""The garage's own settings: all read them, the owner changes them."""

import pytest

FORM = {"name": "Harbour Shed", "time_zone": "Europe/Oslo", "units": "imperial", "paper": "letter"}


def test_the_owner_changes_them(owner, cast):
    answer = owner.press("/garage/", {**FORM, "currency": "NOK"})
    assert answer.status_code == 303
    cast.garage.refresh_from_db()
    assert (cast.garage.name, cast.garage.units, cast.garage.paper) == (
        "Harbour Shed",
        "imperial",
        "letter",
    )


@pytest.mark.parametrize("who", ["helper", "viewer"])
def test_the_others_read_them(cast, who):
    client = cast.client(who)
    assert client.get("/garage/").status_code == 200
    assert client.press("/garage/", FORM).status_code == 403
    cast.garage.refresh_from_db()
    assert cast.garage.name == "Quayside Lock-up"


def test_a_stranger_changes_his_own_alone(stranger, cast):
    stranger.press("/garage/", FORM)
    cast.garage.refresh_from_db()
    assert cast.garage.name == "Quayside Lock-up"


@pytest.mark.parametrize(
    "field, typed", [("name", ""), ("time_zone", "Mars/Dune"), ("paper", "napkin")]
)
def test_bad_input_is_said_at_the_field(owner, cast, field, typed):
    answer = owner.press("/garage/", {**FORM, field: typed})
    assert answer.status_code == 422
    assert field in answer.context["form"].errors
