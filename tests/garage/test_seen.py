"""A page asks every few seconds whether anything was written since: cheap, and silent while nothing was."""

import pytest

from tests.conftest import Browserless, queries
from tests.factories import VehicleFactory


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def drawn(client, path="/"):
    body = client.get(path).content.decode()
    return body.split('data-writes="')[1].split('"')[0]


def seen(client, count):
    return client.get(f"/garage/seen/?writes={count}")


def test_nothing_is_said_while_nothing_was_written(owner, viewer, car):
    for client in (owner, viewer):
        answer = seen(client, drawn(client))
        assert (answer.status_code, answer.content) == (204, b"")


def test_the_write_of_another_is_seen_and_then_known(owner, helper, cast, car):
    count = drawn(owner)
    assert helper.press(f"/people/{cast.helper.pk}/tonight/", {"until": "22:00"}).status_code == 303
    answer = seen(owner, count)
    assert answer.status_code == 200
    assert answer.content.decode() == drawn(owner) != count
    assert seen(owner, answer.content.decode()).status_code == 204


def test_the_write_of_another_garage_is_none(owner, stranger, cast, car):
    count = drawn(owner)
    assert stranger.press(f"/people/{cast.stranger.pk}/tonight/", {"until": "22:00"}).status_code == 303
    assert seen(owner, count).status_code == 204


def test_signed_out_it_says_so_and_asks_no_more(car):
    assert Browserless().get("/garage/seen/?writes=1", headers={"HX-Request": "true"}).status_code == 401


def test_a_fragment_tells_the_count_that_it_was_drawn_with(owner, car):
    body = owner.get("/", headers={"HX-Request": "true", "HX-Target": "main"}).content.decode()
    assert f'data-writes="{drawn(owner)}"' in body


@pytest.mark.parametrize("odd", ["", "x", "-1", "9" * 30, "²"])
def test_an_odd_count_is_another_count(owner, car, odd):
    assert seen(owner, odd).status_code == 200


def test_it_costs_who_asks_and_nothing_else(owner, car):
    drawn(owner)
    assert queries(owner, "/garage/seen/?writes=none") <= 4
