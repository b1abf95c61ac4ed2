"""Who asks in which garage, what is pushed and logged: what stands between request and view."""

import json
import logging
import sys

import pytest
from django.conf import settings as live
from django.http import HttpResponse
from django.test import RequestFactory
from django.utils import timezone

from garage import middleware
from garage.logs import JsonLine, PlainLine, masked, note
from garage.middleware import CHOSEN
from tests.factories import GarageFactory, MembershipFactory


def test_a_person_of_two_garages_sees_the_chosen_one(owner, cast):
    second = MembershipFactory(garage=GarageFactory(name="Hill Shed"), person=cast.owner.person)
    assert owner.get("/people/").context["request"].member == cast.owner
    session = owner.session
    session[CHOSEN] = second.garage.pk
    session.save()
    assert owner.get("/people/").context["request"].member == second
    session[CHOSEN] = cast.stranger.garage.pk
    session.save()
    assert owner.get("/people/").context["request"].member == cast.owner


def test_each_request_runs_in_the_garages_own_time(rf, cast):
    cast.garage.time_zone = "Asia/Kolkata"
    cast.garage.save()
    seen = []
    request = rf.get("/")
    request.user, request.session = cast.owner.person, {}
    middleware.member(lambda _: seen.append(timezone.get_current_timezone_name()))(request)
    assert (seen, timezone.get_current_timezone_name()) == (["Asia/Kolkata"], "UTC")


@pytest.mark.parametrize(
    ("target", "here", "pushed"),
    [("main", "/stations/", "/people/?a=1"), ("main", "/people/?a=1", None), ("other", "/", None)],
)
def test_a_fragment_of_the_main_part_moves_the_address(owner, target, here, pushed):
    headers = {
        "HX-Request": "true",
        "HX-Target": target,
        "HX-Current-URL": f"http://testserver{here}",
    }
    assert owner.get("/people/?a=1", headers=headers).headers.get("HX-Push-Url") == pushed


def test_what_is_denied_is_logged_in_a_line(helper, cast, lines):
    helper.get("/people/add/")
    event = json.loads(lines[0])
    assert len(lines) == 1
    assert {key: event[key] for key in ("event", "person", "method", "path", "address")} == {
        "event": "denied",
        "person": cast.helper.person.pk,
        "method": "GET",
        "path": "/people/add/",
        "address": "127.0.0.1",
    }


def test_a_path_with_line_breaks_stays_one_line(caplog, lines):
    request = RequestFactory().get("/x%0a2026-01-01 CRITICAL fake%1b[31m")
    note("denied", request)
    middleware.errors(lambda _: HttpResponse(status=500))(request)
    for line in (lines[0], caplog.messages[-1]):
        assert "\n" not in line
        assert "\x1b" not in line
        assert "CRITICAL fake" in line


@pytest.mark.parametrize(
    ("text", "then"),
    [
        ("GET /enter/abc_-9/ 200", "GET /enter/***/ 200"),
        ("Not Found: /shared/abc", "Not Found: /shared/***"),
        ("/shared/abc/sheet/?x=1", "/shared/***/sheet/?x=1"),
        ('"/enter/abc" and "/enter/def"', '"/enter/***" and "/enter/***"'),
        ("/people/7/", "/people/7/"),
        ("mail to ines.b@example.org.", "mail to ***@***"),
        ("2 mm @ 470", "2 mm @ 470"),
    ],
)
def test_tokens_are_masked_wherever_they_stand(text, then):
    assert masked(text) == then
    record = logging.LogRecord("x", logging.INFO, "", 0, "%s", (text,), None)
    assert json.loads(JsonLine().format(record))["said"] == then
    assert PlainLine().format(record).endswith(f" {then}")


def test_every_handler_writes_masked_lines():
    formats = {name: kind["()"] for name, kind in live.LOGGING["formatters"].items()}
    assert set(formats.values()) == {"garage.logs.PlainLine", "garage.logs.JsonLine"}
    assert all(handler["formatter"] in formats for handler in live.LOGGING["handlers"].values())


def test_a_fault_is_one_line_of_json_without_what_people_wrote():
    """With its trace: an error of a database quotes the row that it refused."""
    said = 'null value in "name"\nDETAIL:  Failing row contains (7, Ines, Brightwater, ines@example.org).'
    try:
        raise ValueError(f"{said}\nwhile /enter/abc_-9/ was read for tove.m@example.org")
    except ValueError:
        record = logging.LogRecord("django.request", logging.ERROR, "", 0, "broke off", (), sys.exc_info())
    for line in (JsonLine().format(record), PlainLine().format(record)):
        assert "Failing row" not in line and "Brightwater" not in line and "example.org" not in line
        assert "abc_-9" not in line and "/enter/***/ was read for ***@***" in line and "ValueError" in line
    line = JsonLine().format(record)
    assert "\n" not in line
    assert json.loads(line).keys() == {"at", "level", "log", "process", "said", "trace"}
