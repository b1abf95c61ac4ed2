"""Devices on which somebody is signed in: listed, and each signed out by itself."""

import pytest

from garage.models import Device
from tests.conftest import signed_in
from tests.factories import MembershipFactory
from tests.garage.engine.test_devices import DESK, PHONE
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def phone_and_desk(cast):
    phone, desk = signed_in(cast.helper), signed_in(cast.helper)
    for client, agent in ((phone, PHONE), (desk, DESK)):
        client.defaults["HTTP_USER_AGENT"] = agent
        assert client.get("/account/").status_code == 200
    return phone, desk


def test_each_is_listed_once_and_says_which_this_one_is(phone_and_desk):
    phone, _ = phone_and_desk
    phone.get("/")
    seen = words(phone.get("/account/").content.decode())
    assert seen.count("Phone, Android, Chrome this one") == 1 and seen.count("Computer, Linux, Firefox") == 1
    assert seen.count("Sign out there") == 1


def test_one_is_signed_out_and_the_other_stays(phone_and_desk, cast):
    phone, desk = phone_and_desk
    device = Device.objects.get(kind="computer")
    assert phone.press(f"/devices/{device.pk}/end/")["Location"] == "/account/"
    assert desk.get("/").status_code == 302 and phone.get("/").status_code == 200
    assert not Device.objects.filter(kind="computer").exists()


def test_the_owner_sees_and_ends_those_of_his_people(owner, helper, viewer, stranger, cast, phone_and_desk):
    phone, desk = phone_and_desk
    page = f"/people/{cast.helper.pk}/"
    assert "Signed in on: 2" in words(owner.get(page).content.decode())
    assert "Signed in on" not in words(viewer.get(page).content.decode())
    device = Device.objects.get(kind="phone")
    assert [client.press(f"/devices/{device.pk}/end/").status_code for client in (viewer, stranger)] == [403, 404]
    assert owner.press(f"/devices/{device.pk}/end/", {"next": page})["Location"] == page
    assert phone.get("/").status_code == 302 and desk.get("/").status_code == 200


def test_who_is_in_another_garage_too_ends_his_own(owner, cast, phone_and_desk):
    MembershipFactory(person=cast.helper.person)
    device = Device.objects.get(kind="phone")
    assert owner.press(f"/devices/{device.pk}/end/").status_code == 403
    assert "Signed in on" not in words(owner.get(f"/people/{cast.helper.pk}/").content.decode())


def test_signed_out_everywhere_else_leaves_this_one_alone_on_the_list(phone_and_desk, cast, clock):
    phone, desk = phone_and_desk
    clock.forward(seconds=1)
    phone.press("/account/elsewhere/")
    assert phone.get("/").status_code == 200 and desk.get("/").status_code == 302
    assert [device.kind for device in Device.objects.of(cast.helper.person)] == ["phone"]


def test_one_that_was_not_used_for_two_weeks_is_not_listed(phone_and_desk, cast, clock):
    phone, _ = phone_and_desk
    clock.forward(days=13)
    phone.get("/")
    clock.forward(days=1)
    assert [device.kind for device in Device.objects.of(cast.helper.person).live(clock.at)] == ["phone"]


def test_a_new_password_draws_a_new_key_and_keeps_the_device(cast, phone_and_desk):
    phone, _ = phone_and_desk
    sent = {"email": "tove@example.org", "password": "long enough words", "again": "long enough words"}
    assert phone.post("/account/sign-in/", sent).status_code == 303
    phone.get("/")
    (device,) = Device.objects.of(cast.helper.person)
    assert device.kind == "phone" and device.session_key == phone.session.session_key
