"""Signing in by password: counted before it is hashed; sessions that begin, age and end."""

import json

import pytest
from django.contrib.auth import hashers
from django.test import Client

from garage.models import Tries

WORDS = "spanner under the bench"
RIGHT = {"email": "ines@example.org", "password": WORDS}
WRONG = {**RIGHT, "password": "spanner in the works"}
SENTENCE = "This e-mail and password do not go together, or there is no such account."


@pytest.fixture
def ines(cast):
    person = cast.owner.person
    person.email = "ines@example.org"
    person.set_password(WORDS)
    person.save()
    return person


def post(data, address="192.0.2.1", client=None):
    return (client or Client()).post("/sign-in/", data, REMOTE_ADDR=address)


def is_in(client) -> bool:
    return client.get("/account/").status_code == 200


def test_the_right_password_lets_in_and_goes_where_one_wanted_to(ines, lines):
    client = Client()
    answer = post({**RIGHT, "email": " Ines@Example.org ", "next": "/stations/"}, client=client)
    assert (answer.status_code, answer["Location"]) == (303, "/stations/")
    assert is_in(client)
    event = json.loads(lines[-1])
    assert (event["event"], event["person"], event["how"]) == ("signed in", ines.pk, "password")


@pytest.mark.parametrize("away", ["https://evil.example/", "//evil.example", "javascript:alert(1)"])
def test_one_is_sent_nowhere_else(ines, away):
    assert post({**RIGHT, "next": away})["Location"] == "/"


def test_unknown_known_and_passwordless_people_get_the_same_words_and_pay_the_same(ines, cast, monkeypatch):
    tove = cast.helper.person
    tove.email = "tove@example.org"
    tove.set_unusable_password()
    tove.save()
    hashed = []
    real = hashers.MD5PasswordHasher.encode
    monkeypatch.setattr(hashers.MD5PasswordHasher, "encode", lambda *a: hashed.append(1) or real(*a))
    for email in ("ines@example.org", "tove@example.org", "nobody@example.org"):
        hashed.clear()
        answer = post({**WRONG, "email": email})
        assert answer.status_code == 422
        assert SENTENCE in answer.content.decode()
        assert len(hashed) == 1


def test_five_failures_for_a_name_from_an_address_wait_a_quarter_of_an_hour(ines, clock, lines):
    assert [post(WRONG).status_code for _ in range(5)] == [422] * 5
    answer = post(WRONG)
    assert (answer.status_code, answer["Retry-After"]) == (429, "900")
    assert "Too many tries: wait 15 minutes" in answer.content.decode()
    clock.forward(minutes=14, seconds=30)
    answer = post(RIGHT)
    assert (answer.status_code, answer["Retry-After"]) == (429, "30")
    clock.forward(seconds=30)
    assert post(RIGHT).status_code == 303
    assert [json.loads(line)["event"] for line in lines] == ["sign-in failed"] * 5 + ["throttled"] * 2 + ["signed in"]


def test_nothing_is_hashed_while_one_waits(ines, monkeypatch):
    for _ in range(5):
        post(WRONG)
    monkeypatch.setattr("garage.actions.sign_in.authenticate", pytest.fail)
    assert post(RIGHT).status_code == 429


def test_twenty_failures_from_an_address_close_it_to_every_name(ines, clock):
    for number in range(20):
        assert post({**WRONG, "email": f"nobody{number}@example.org"}).status_code == 422
    assert post(RIGHT).status_code == 429
    assert post(RIGHT, address="192.0.2.2").status_code == 303


def test_one_household_of_ipv6_addresses_counts_as_one(ines):
    for number in range(5):
        post(WRONG, address=f"2001:db8:1:2::{number}")
    assert post(RIGHT, address="2001:db8:1:2:ffff::1").status_code == 429
    assert post(RIGHT, address="2001:db8:1:3::1").status_code in (303, 429)


def test_many_addresses_slow_a_name_down_and_never_shut_it_out(ines, clock):
    waits = []
    for number in range(30):
        answer = post(WRONG, address=f"198.51.100.{number}")
        while answer.status_code == 429:
            waits.append(int(answer["Retry-After"]))
            clock.forward(seconds=waits[-1])
            answer = post(WRONG, address=f"198.51.100.{number}")
    assert waits[:6] == [1, 2, 4, 8, 16, 30]
    assert max(waits) == 30
    answer = post(RIGHT, address="203.0.113.9")
    assert answer.status_code == 429
    clock.forward(seconds=int(answer["Retry-After"]))
    assert post(RIGHT, address="203.0.113.9").status_code == 303


def test_an_address_that_was_right_before_is_not_slowed_by_others(ines, clock):
    assert post(RIGHT, address="203.0.113.9").status_code == 303
    for number in range(12):
        post(WRONG, address=f"198.51.100.{number}")
    assert post(RIGHT, address="198.51.100.200").status_code == 429
    assert post(RIGHT, address="203.0.113.9").status_code == 303


def test_being_right_clears_the_count(ines):
    for _ in range(4):
        post(WRONG)
    post(RIGHT)
    assert [post(WRONG).status_code for _ in range(5)] == [422] * 5


def test_behind_a_proxy_only_what_the_proxy_added_counts(ines, settings):
    settings.BEHIND_PROXY = True
    for number in range(6):
        answer = Client().post(
            "/sign-in/",
            WRONG,
            REMOTE_ADDR="127.0.0.1",
            HTTP_X_FORWARDED_FOR=f"10.0.0.{number}, 192.0.2.7",
        )
    assert answer.status_code == 429


def test_a_busy_machine_asks_to_come_again_and_counts_nothing(ines, monkeypatch):
    monkeypatch.setattr("garage.actions.sign_in.PATIENCE", 0.01)
    from garage.actions.sign_in import HASHING

    with HASHING:
        answer = post(WRONG)
    assert (answer.status_code, answer["Retry-After"]) == (429, "1")
    assert set(Tries.objects.values_list("count", flat=True)) == {0}


@pytest.mark.parametrize("size", [257, 1_000_000])
def test_an_endless_password_is_refused_unhashed(ines, monkeypatch, size):
    monkeypatch.setattr("garage.actions.sign_in.authenticate", pytest.fail)
    assert post({**RIGHT, "password": "x" * size}).status_code == 400
    assert not Tries.objects.exists()


def test_what_was_typed_at_the_door_is_not_logged(ines, lines):
    """A password typed into the wrong box, or a line break that would begin a line of its own."""
    post({**WRONG, "email": "a\n2027-01-01 CRITICAL fake\x1b[31m"})
    assert json.loads(lines[-1])["event"] == "sign-in failed"
    assert not any(word in lines[-1] for word in ("\n", "\x1b", "CRITICAL", WRONG["password"]))


def test_a_session_gets_a_new_key_at_sign_in(ines):
    client = Client()
    client.cookies["sessionid"] = "a" * 32
    post(RIGHT, client=client)
    assert client.cookies["sessionid"].value != "a" * 32
    before = client.cookies["sessionid"].value
    post(RIGHT, client=Client())
    assert client.cookies["sessionid"].value == before


def test_sign_out_takes_a_post_and_ends_the_session_for_good(owner, cast):
    cookie = owner.cookies["sessionid"].value
    assert owner.get("/sign-out/").status_code == 405
    assert is_in(owner)
    answer = owner.post("/sign-out/")
    assert (answer.status_code, answer["Location"]) == (303, "/sign-in/")
    assert answer["Clear-Site-Data"] == '"cache"'
    old = Client()
    old.cookies["sessionid"] = cookie
    assert not is_in(old)


def test_whoever_is_deactivated_is_out_at_the_next_request(owner, cast):
    assert is_in(owner)
    cast.owner.person.is_active = False
    cast.owner.person.save()
    assert not is_in(owner)


def test_a_session_lives_ninety_days_at_most_and_is_extended_once_a_day(
    owner, cast, clock, django_assert_max_num_queries
):
    assert is_in(owner)
    clock.forward(hours=23)
    owner.get("/account/")
    assert "sessionid" not in owner.get("/account/").cookies
    clock.forward(hours=2)
    extended = owner.get("/account/")
    assert extended.cookies["sessionid"]["max-age"] == 14 * 24 * 3600
    assert "sessionid" not in owner.get("/account/").cookies
    clock.forward(days=88, hours=22)
    assert is_in(owner)
    clock.forward(hours=2)
    assert not is_in(owner)


def test_a_page_that_needs_signing_in_is_named_and_a_post_is_not(cast):
    assert Client().get("/account/?a=1")["Location"] == "/sign-in/?next=%2Faccount%2F%3Fa%3D1"
    assert Client().post("/account/elsewhere/")["Location"] == "/sign-in/"


def test_a_fragment_leaves_for_the_sign_in_page(cast):
    answer = Client().post(
        "/account/elsewhere/",
        headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/stations/"},
    )
    assert answer.status_code == 401
    assert answer["HX-Redirect"] == "/sign-in/?next=%2Fstations%2F"


def test_the_form_needs_its_token(ines):
    client = Client(enforce_csrf_checks=True)
    answer = client.post("/sign-in/", RIGHT)
    assert answer.status_code == 403
    assert "reload it and send it again" in answer.content.decode()
