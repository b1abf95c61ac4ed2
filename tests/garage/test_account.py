"""One's own account: name, light or dark, e-mail and password, other devices."""

import pytest

from tests.conftest import signed_in
from tests.garage.test_people import text

WORDS = "spanner under the bench"
NEW = {"email": "tove@example.org", "password": "a longer one, with spaces 🔧"}


@pytest.fixture
def tove(cast):
    person = cast.helper.person
    person.set_password(WORDS)
    person.save()
    return person


@pytest.fixture
def phone(tove, cast):
    return signed_in(cast.helper)


def test_name_and_scheme_are_ones_own(helper, cast):
    data = {"name": "Oddvar", "surname": "Lind", "scheme": "dark"}
    assert helper.press("/account/", data).status_code == 303
    shown = helper.get("/account/").content.decode()
    assert 'data-scheme="dark"' in shown
    assert 'value="Oddvar"' in shown
    cast.helper.person.refresh_from_db()
    assert (cast.helper.person.name, cast.helper.person.surname) == ("Oddvar", "Lind")


@pytest.mark.parametrize(
    ("wrong", "field"),
    [({"name": ""}, "name"), ({"name": "x" * 10_000}, "name"), ({"scheme": "pink"}, "scheme")],
)
def test_what_is_wrong_is_said_at_the_field(helper, cast, wrong, field):
    answer = helper.press("/account/", {"name": "Tove", **wrong})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]
    cast.helper.person.refresh_from_db()
    assert cast.helper.person.name == "Tove"


def test_more_fields_than_the_form_has_change_nothing(helper, cast):
    helper.press("/account/", {"name": "Tove", "is_active": "", "email": "x@example.org", "pk": "1"})
    person = type(cast.helper.person).objects.get(pk=cast.helper.person.pk)
    assert person.is_active
    assert person.email == cast.helper.person.email


def test_a_first_password_needs_none_before(helper, cast):
    cast.helper.person.set_unusable_password()
    cast.helper.person.save()
    helper.force_login(cast.helper.person)
    assert "Password now" not in text(helper.get("/account/sign-in/"))
    assert helper.post("/account/sign-in/", NEW).status_code == 303
    cast.helper.person.refresh_from_db()
    assert cast.helper.person.check_password(NEW["password"])
    assert cast.helper.person.email == "tove@example.org"
    assert helper.get("/account/").status_code == 200


def test_a_new_password_ends_every_other_session_and_not_this_one(helper, phone, tove, clock):
    helper.force_login(tove)
    assert helper.get("/account/").status_code == phone.get("/account/").status_code == 200
    answer = helper.post("/account/sign-in/", {**NEW, "current": WORDS})
    assert answer.status_code == 303
    assert helper.get("/account/").status_code == 200
    assert phone.get("/account/").status_code == 302


def test_the_password_now_is_asked_for_and_not_for_ever(helper, tove, clock):
    helper.force_login(tove)
    for _ in range(5):
        answer = helper.post("/account/sign-in/", {**NEW, "current": "a guess"})
        assert answer.context["form"].errors["current"] == ["This is not your password now."]
    answer = helper.post("/account/sign-in/", {**NEW, "current": WORDS})
    assert answer.context["form"].errors["current"] == ["Too many tries: wait 15 minutes, then try again."]
    tove.refresh_from_db()
    assert tove.check_password(WORDS)
    clock.forward(minutes=15)
    assert helper.post("/account/sign-in/", {**NEW, "current": WORDS}).status_code == 303


def test_an_e_mail_alone_keeps_the_password_and_the_other_devices(helper, phone, tove, clock):
    helper.force_login(tove)
    phone.get("/account/")
    data = {"email": "Tove@Example.org", "current": WORDS, "password": ""}
    assert helper.post("/account/sign-in/", data).status_code == 303
    tove.refresh_from_db()
    assert tove.email == "tove@example.org"
    assert tove.check_password(WORDS)
    assert phone.get("/account/").status_code == 200


@pytest.mark.parametrize(
    ("password", "sentence"),
    [
        ("7 chars", "too short"),
        ("password1", "too common"),
        ("8502743196", "entirely numeric"),
        ("Quayside Lock-up", "A garage's own name"),
        ("quayside lockup 2027", "A garage's own name"),
        ("tove@example.org1", "too similar"),
        ("x" * 257, "at most 256 characters"),
    ],
)
def test_passwords_that_anybody_would_try_are_refused(helper, tove, password, sentence):
    helper.force_login(tove)
    tove.email = "tove@example.org"
    tove.save()
    answer = helper.post("/account/sign-in/", {**NEW, "password": password, "current": WORDS})
    assert answer.status_code == 422
    assert sentence in " ".join(answer.context["form"].errors["password"])
    assert f'value="{password}"' not in answer.content.decode()


@pytest.mark.parametrize("password", ["q w" * 42 + "zz", "  spaces at both ends ", "🔧🔩🚗🛞🧰🪛🔋🏁🧤🪜"])
def test_long_ones_spaces_and_pictures_are_kept_unchanged(helper, tove, password):
    helper.force_login(tove)
    answer = helper.post("/account/sign-in/", {**NEW, "password": password, "current": WORDS})
    assert answer.status_code == 303
    tove.refresh_from_db()
    assert tove.check_password(password)
    assert not tove.check_password(password.strip() + "x")


def test_somebody_elses_e_mail_is_refused(helper, tove, cast):
    helper.force_login(tove)
    taken = cast.stranger.person.email.upper()
    answer = helper.post("/account/sign-in/", {**NEW, "email": taken, "current": WORDS})
    assert answer.context["form"].errors["email"] == ["This e-mail cannot be used here: write another."]


def test_every_other_device_is_signed_out_in_one_tap(helper, phone, cast, clock):
    helper.force_login(cast.helper.person)
    assert helper.get("/account/").status_code == phone.get("/account/").status_code == 200
    clock.forward(minutes=1)
    assert helper.get("/account/elsewhere/").status_code == 405
    assert helper.press("/account/elsewhere/").status_code == 303
    assert helper.get("/account/").status_code == 200
    assert phone.get("/account/").status_code == 302


def test_nobody_has_no_account(cast):
    client = cast.client("nobody")
    for path in ("/account/", "/account/sign-in/"):
        assert client.get(path).status_code == 302
        assert client.press(path).status_code == 302
