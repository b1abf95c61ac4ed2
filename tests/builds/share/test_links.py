"""All links that lead in, each with when it was last opened, each revoked by itself."""

import re

import pytest

from garage.models import Share, SignInLink, VisitLink
from tests.conftest import Browserless
from tests.factories import MembershipFactory, VehicleFactory
from tests.pages import words


@pytest.fixture
def made(owner, cast, now):
    """One link of each kind, by what it is called."""
    car = VehicleFactory(garage=cast.garage, name="Heron")
    pages = {
        "Status of Heron, for the club": owner.press(f"/share/add/?vehicle={car.pk}", {"days": 9, "label": "the club"}),
        "When Tove can come": owner.press("/visits/add/", {"days": 9, "member": cast.helper.pk}),
        "Calendar of Ines": owner.press("/calendar/add/", {"of": "mine"}),
        "Signs in Tove": owner.press(f"/people/{cast.helper.pk}/link/"),
    }
    return {
        what: re.search(r"/(?:shared|visit|feed|enter)/[^<\s\"]+", page.content.decode())[0]
        for what, page in pages.items()
    }


def listed(owner):
    return {link.what: link for link in owner.get("/links/").context["links"]}


def test_every_kind_is_there_and_says_when_it_was_opened(owner, made):
    assert set(listed(owner)) == set(made)
    assert {link.opened for link in listed(owner).values()} == {None}
    for address in made.values():
        assert Browserless().get(address).status_code == 200
    opened = {what: link.opened is not None for what, link in listed(owner).items()}
    assert opened == {what: what != "Signs in Tove" for what in made}
    assert "last opened Tue 2 Mar 17:00" in words(owner.get("/links/").content.decode())


def test_each_is_revoked_by_itself(owner, made):
    for what, address in made.items():
        before = set(listed(owner))
        answer = owner.press(listed(owner)[what].revoke_url, {"next": "/links/"})
        assert answer["Location"] == "/links/"
        assert set(listed(owner)) == before - {what}
        assert Browserless().get(address).status_code == 404


def test_who_is_in_another_garage_too_revokes_his_own_link(owner, cast, made):
    MembershipFactory(person=cast.helper.person)
    link = listed(owner)["Signs in Tove"]
    assert link.refusal == "Tove is in another garage too: only Tove can change this."
    body = owner.get("/links/").content.decode()
    assert link.refusal in body and link.revoke_url not in body
    assert owner.press(link.revoke_url).status_code == 403


def test_no_token_stands_on_the_list(owner, made):
    body = owner.get("/links/").content.decode()
    assert not [address for address in made.values() if address.split("/")[2] in body]


def test_they_are_the_owners_alone(helper, stranger, made):
    assert helper.get("/links/").status_code == 403
    assert not stranger.get("/links/").context["links"]
    assert Share.objects.count() == VisitLink.objects.count() == SignInLink.objects.count() == 1


def test_what_was_made_is_copied_and_scanned(owner, cast, now):
    body = owner.press(f"/people/{cast.helper.pk}/link/").content.decode()
    assert 'data-copies="link-out"' in body and "link-out-code" in body
