"""One-time links: printed by the command, used once, told from nothing when they are no good."""

import json
import logging
import re
from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.test import Client

from garage.actions.sign_in import OWN_LINK, make_link
from garage.logs import PlainLine
from garage.models import Membership, Person, SignInLink
from tests.factories import NOW, PersonFactory


def printed(*who: str) -> str:
    out = StringIO()
    call_command("sign_in_link", *who, stdout=out)
    return out.getvalue()


def path_in(words: str) -> str:
    return re.search(r"http://127\.0\.0\.1:8000(/enter/[\w-]{27}/)$", words.strip())[1]


def make(cast) -> str:
    token = make_link(cast.helper.person, lasts=OWN_LINK, at=NOW)
    return f"/enter/{token}/"


def test_where_nobody_is_the_command_makes_the_first_person(db, now):
    words = printed()
    person = Person.objects.get()
    assert words.startswith(f"Sign in as {person}, once, within 30 min:")
    assert not Membership.objects.exists()
    client = Client()
    assert client.post(path_in(words))["Location"] == "/"
    assert client.get("/account/").status_code == 200
    assert client.get("/people/")["Location"] == "/first-run/"
    assert printed().startswith(f"Sign in as {person}")
    assert Person.objects.count() == 1


def test_without_a_name_it_is_the_first_owners(cast, now):
    assert printed().startswith("Sign in as Ines")


@pytest.mark.parametrize("who", ["Tove", "tove", "TOVE@example.org"])
def test_somebody_is_named_by_name_or_e_mail(cast, now, who):
    Person.objects.filter(pk=cast.helper.person.pk).update(email="tove@example.org")
    assert printed(who).startswith("Sign in as Tove")


def test_a_name_of_nobody_or_of_two_is_refused(cast, now):
    with pytest.raises(CommandError, match="Nobody here is called Moll"):
        printed("Moll")
    PersonFactory(name="Tove")
    with pytest.raises(CommandError, match="More than one is called Tove: give an e-mail"):
        printed("Tove")
    Person.objects.filter(name="Ines").update(is_active=False)
    with pytest.raises(CommandError, match="Nobody here is called Ines"):
        printed("Ines")


def test_looking_at_a_link_uses_nothing_up_and_pressing_signs_in_once(cast, now, lines):
    path, client = make(cast), Client()
    for _ in range(5):
        answer = Client().get(path)
        assert answer.status_code == 200
        assert "Sign in as Tove" in answer.content.decode()
        assert answer["Referrer-Policy"] == "strict-origin"
        assert answer["X-Robots-Tag"] == "noindex, nofollow"
        assert "no-store" in answer["Cache-Control"]
    assert SignInLink.objects.get().used_at is None
    assert client.post(path).status_code == 303
    assert client.get("/account/").context["request"].user == cast.helper.person
    assert Client().post(path).status_code == 404
    assert Client().get(path).status_code == 404
    event = json.loads(lines[0])
    assert (event["event"], event["how"], event["path"]) == ("signed in", "link", "/enter/***/")


def test_unknown_used_expired_and_replaced_links_are_the_same_nothing(cast, clock):
    used, replaced = make(cast), make(cast)
    SignInLink.objects.update(used_at=NOW)
    expired = make(cast)
    clock.forward(minutes=30)
    unknown = f"/enter/{'x' * 27}/"
    answers = [Client().get(path) for path in (used, replaced, expired, unknown, "/enter/é/")]
    answers += [Client().post(path) for path in (used, replaced, expired, unknown)]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.content for answer in answers}) == 1
    assert len({str(sorted(answer.headers.items())) for answer in answers}) == 1


def test_a_link_works_until_its_last_second_and_not_for_a_deactivated_person(cast, clock):
    path = make(cast)
    clock.forward(minutes=29, seconds=59)
    assert Client().get(path).status_code == 200
    Person.objects.filter(pk=cast.helper.person.pk).update(is_active=False)
    assert Client().get(path).status_code == 404
    assert Client().post(path).status_code == 404


def test_signing_in_by_link_changes_the_person_who_is_in(owner, cast, now):
    before = owner.cookies["sessionid"].value
    owner.post(make(cast))
    assert owner.get("/account/").context["request"].user == cast.helper.person
    assert owner.cookies["sessionid"].value != before


def test_the_database_keeps_no_token(cast, now):
    token = make(cast).split("/")[2]
    link = SignInLink.objects.get()
    assert token not in json.dumps([link.digest, str(link.pk)])
    assert link.expires_at - NOW == timedelta(minutes=30)


def test_no_line_of_any_log_holds_a_token(cast, now, caplog):
    path = make(cast)
    token = path.split("/")[2]
    caplog.handler.setFormatter(PlainLine())
    client = Client(enforce_csrf_checks=True)
    with caplog.at_level(logging.DEBUG):
        client.post(path)  # refused for want of its form's token, so the link still lives
        client.get(path[:-1])
    assert Client().get(path).status_code == 200
    assert "/enter/***" in caplog.text
    assert token not in caplog.text


def test_one_that_was_used_leads_whoever_is_in_to_today(cast, now):
    path, phone = make(cast), Client()
    phone.post(path)
    assert phone.get(path)["Location"] == "/"
    assert Client().get(path).status_code == 404
    assert phone.get("/enter/" + "x" * 27 + "/").status_code == 404
    phone.force_login(cast.owner.person)
    assert phone.get(path).status_code == 404


def test_what_was_scanned_signed_out_is_there_after_a_link(cast, now):
    phone = Client()
    asked = phone.get("/cars/?page=2")["Location"]
    phone.get(asked)
    assert phone.post(make(cast))["Location"] == "/cars/?page=2"
    assert phone.post(make(cast))["Location"] == "/"


@pytest.mark.parametrize(
    "wanted", ["//elsewhere.example/", "https://elsewhere.example/", "javascript:alert(1)", "x" * 401]
)
def test_only_pages_of_ours_are_returned_to(cast, now, wanted):
    phone = Client()
    phone.get("/sign-in/", {"next": wanted})
    assert phone.post(make(cast))["Location"] == "/"
    phone.force_login(cast.helper.person)
    assert phone.get("/sign-in/", {"next": wanted})["Location"] == "/"


def test_a_wish_in_letters_that_no_header_can_hold_is_kept_in_those_it_can(cast, now):
    phone = Client()
    told = phone.get("/sign-in/", {"next": "/cars/?q=☃"}).cookies["wanted"]
    assert told.OutputString().isascii()
    assert phone.post(make(cast))["Location"] == "/cars/?q=%E2%98%83"


def test_a_wish_is_forgotten_by_whichever_door_he_came_in(cast, now):
    cast.helper.person.set_password("seven rusty bolts")
    cast.helper.person.save()
    phone = Client()
    phone.get("/sign-in/", {"next": "/cars/"})
    sent = {"email": cast.helper.person.email, "password": "seven rusty bolts", "next": "/cars/"}
    assert phone.post("/sign-in/", sent)["Location"] == "/cars/"
    assert phone.cookies["wanted"].value == ""
    phone.post("/sign-out/")
    assert phone.post(make(cast))["Location"] == "/"


def test_a_wish_that_was_written_by_hand_is_none(cast, now):
    phone = Client()
    phone.cookies["wanted"] = "/cars/"
    assert phone.post(make(cast))["Location"] == "/"


def test_who_is_in_already_goes_where_he_wanted(cast, now):
    phone = Client()
    phone.force_login(cast.helper.person)
    assert phone.get("/sign-in/", {"next": "/cars/"})["Location"] == "/cars/"


def test_the_owner_revokes_it_and_who_is_in_stays_in(cast, owner, helper, now):
    path = make(cast)
    answer = owner.press(f"/people/{cast.helper.pk}/link/revoke/")
    assert answer["Location"] == f"/people/{cast.helper.pk}/"
    assert Client().get(path).status_code == 404
    assert helper.get("/account/").status_code == 200
    assert helper.press(f"/people/{cast.owner.pk}/link/revoke/").status_code == 403
