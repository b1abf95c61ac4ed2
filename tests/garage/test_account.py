"""One's own account: changed by oneself, and a new password ends every other session."""

import pytest

from tests.conftest import Browserless
from tests.factories import MembershipFactory

GOOD = "six wet spanners in a row"


@pytest.fixture
def settled(cast, owner):
    """The owner signs in by password, here and on a second device."""
    answer = owner.press(
        "/account/sign-in/", {"email": "ines@example.org", "password": GOOD, "again": GOOD}
    )
    assert answer.status_code == 303, answer.context["form"].errors
    second = Browserless()
    sent = {"email": "ines@example.org", "password": GOOD}
    assert second.post("/sign-in/", sent).status_code in (302, 303)
    assert second.get("/account/").status_code == 200
    return second


def test_name_and_scheme_are_ones_own_to_change(owner, cast):
    answer = owner.press("/account/", {"name": "Ines", "surname": "Calder", "scheme": "dark"})
    assert answer.status_code == 303
    cast.owner.person.refresh_from_db()
    assert (cast.owner.person.surname, cast.owner.person.scheme) == ("Calder", "dark")
    assert 'data-scheme="dark"' in owner.get("/account/").content.decode()


@pytest.mark.parametrize("name", ["", "x" * 10_000])
def test_a_name_that_cannot_be_is_said_at_the_field(owner, cast, name):
    answer = owner.press("/account/", {"name": name, "surname": "", "scheme": ""})
    assert answer.status_code == 422
    assert "name" in answer.context["form"].errors


def test_a_new_password_ends_the_other_session(settled, owner):
    other = "a rack of dull sockets"
    answer = owner.press(
        "/account/sign-in/",
        {"email": "ines@example.org", "current": GOOD, "password": other, "again": other},
    )
    assert answer.status_code == 303, answer.context["form"].errors
    assert owner.get("/account/").status_code == 200
    assert settled.get("/account/").status_code == 302


def test_it_takes_the_password_one_has(settled, owner):
    answer = owner.press(
        "/account/sign-in/",
        {"email": "ines@example.org", "current": "wrong", "password": GOOD, "again": GOOD},
    )
    assert answer.status_code == 422
    assert "current" in answer.context["form"].errors


@pytest.mark.parametrize("weak", ["short", "password1", "12345678901234", "x" * 300])
def test_a_weak_or_endless_password_is_refused(owner, weak):
    answer = owner.press(
        "/account/sign-in/", {"email": "ines@example.org", "password": weak, "again": weak}
    )
    assert answer.status_code == 422


def test_an_e_mail_belongs_to_one(owner, cast):
    MembershipFactory(person__email="taken@example.org")
    answer = owner.press(
        "/account/sign-in/", {"email": "Taken@example.org", "password": GOOD, "again": GOOD}
    )
    assert answer.status_code == 422
    assert "email" in answer.context["form"].errors


def test_every_other_device_is_signed_out_in_one_tap(settled, owner):
    assert owner.press("/account/elsewhere/").status_code == 303
    assert owner.get("/account/").status_code == 200
    assert settled.get("/account/").status_code == 302
