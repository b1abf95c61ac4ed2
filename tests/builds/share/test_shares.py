"""Share links: shown once, kept as a digest, dead the moment they are revoked."""

import re
import runpy
from datetime import timedelta
from types import SimpleNamespace

import pytest
from gunicorn.config import Config

from garage.access_log import MaskedLogger
from garage.models import Share
from tests.builds.plan.plan_kit import enter, evenings, planned
from tests.conftest import Browserless, queries
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, LinkFactory, VehicleFactory
from tests.house.places import ROOT
from tests.pages import words


@pytest.fixture
def heron(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"])
    VehicleFactory(garage=cast.garage, name="Badger")
    return car


def make(owner, query):
    page = owner.press(f"/share/add/?{query}", {"days": "14", "label": "the club"})
    assert page.status_code == 201
    return re.search(r"/shared/([\w-]+)/", page.content.decode())[1]


def test_whoever_has_the_link_reads_the_status_and_no_more(owner, cast, heron):
    cast.owner.person.surname = "Calder"
    cast.owner.person.save()
    token = make(owner, f"vehicle={heron.pk}")
    answer = Browserless().get(f"/shared/{token}/")
    page = answer.content.decode()
    assert answer.status_code == 200
    assert "Not fit to run" in page and "Weld the arm" in page
    for secret in ("Badger", "Calder", "@example.org", "the club", "Ines", 'href="/jobs'):
        assert secret not in page
    assert answer["Referrer-Policy"] == "no-referrer"
    assert answer["X-Robots-Tag"] == "noindex, nofollow"
    assert "no-store" in answer["Cache-Control"]


def test_an_event_shows_its_cars_alone(owner, cast, heron):
    event = EventFactory(garage=cast.garage, name="Saltmarsh")
    EntryFactory(event=event, vehicle=heron)
    page = Browserless().get(f"/shared/{make(owner, f'event={event.pk}')}/").content.decode()
    assert "Saltmarsh" in page and "Heron" in page and "Badger" not in page


def test_whoever_reads_it_is_told_the_garages_time(owner, cast, heron):
    cast.garage.time_zone = "Asia/Tokyo"
    cast.garage.save()
    page = Browserless().get(f"/shared/{make(owner, f'vehicle={heron.pk}')}/").content.decode()
    assert "As of Wed 3 Mar 02:00" in page


def test_only_a_digest_is_kept(owner, heron):
    token = make(owner, f"vehicle={heron.pk}")
    share = Share.objects.get()
    kept = " ".join(str(value) for value in vars(share).values())
    assert token not in kept
    assert share.tail == token[-4:]


def test_wrong_revoked_expired_and_malformed_are_one_and_the_same(owner, heron, monkeypatch):
    token = make(owner, f"vehicle={heron.pk}")
    stranger = Browserless()
    wrong = stranger.get("/shared/" + "x" * 27 + "/")
    share = Share.objects.get()
    owner.press(f"/share/{share.pk}/revoke/")
    revoked = stranger.get(f"/shared/{token}/")
    share.refresh_from_db()
    Share.objects.update(revoked_at=None)
    monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(days=15))
    expired = stranger.get(f"/shared/{token}/")
    others = [stranger.get(f"/shared/{odd}/") for odd in ("%00", "a/b", "é", "x" * 5000, "..")]
    for answer in (wrong, revoked, expired, *others):
        assert answer.status_code == 404
        assert answer.content == wrong.content
        assert dict(answer.headers) == dict(wrong.headers)
    assert wrong["Referrer-Policy"] == "no-referrer"
    assert wrong["X-Robots-Tag"] == "noindex, nofollow"
    assert "no-store" in wrong["Cache-Control"]


def test_reading_changes_nothing_but_when_it_was_opened_last(owner, heron):
    token = make(owner, f"vehicle={heron.pk}")
    before = {**Share.objects.values().get(), "opened_at": NOW}
    for _ in range(5):
        Browserless().get(f"/shared/{token}/")
    assert Share.objects.values().get() == before
    assert Browserless().post(f"/shared/{token}/").status_code in (403, 405)


def test_guessing_ends_in_silence_for_that_address_alone(owner, heron, caplog):
    token = make(owner, f"vehicle={heron.pk}")
    guesser = Browserless()
    caplog.set_level("INFO", "garage.security")
    first, *more = [guesser.get(f"/shared/guess{number}/") for number in range(60)]
    right = guesser.get(f"/shared/{token}/")
    assert {answer.status_code for answer in (first, *more, right)} == {404}
    assert {answer.content for answer in (first, *more, right)} == {first.content}
    assert caplog.text.count("share guessed too often") == 1
    assert Browserless(REMOTE_ADDR="198.51.100.7").get(f"/shared/{token}/").status_code == 200


def test_a_double_tap_makes_one_link_and_goes_home(owner, heron):
    data = {"days": "14", "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"}
    first, second = (owner.post(f"/share/add/?vehicle={heron.pk}", data) for _ in range(2))
    assert (first.status_code, second.status_code) == (201, 303)
    assert second["Location"] == f"/cars/{heron.pk}/"
    assert Share.objects.count() == 1


def test_a_car_that_no_event_waits_for_says_when_the_plan_has_it_ready(owner, cast, heron):
    evenings(cast.owner)
    token = make(owner, f"vehicle={heron.pk}")
    assert "Ready Tue 19:00 by the plan." in Browserless().get(f"/shared/{token}/").content.decode()


@pytest.mark.parametrize("shared", ["vehicle", "event"])
def test_nobody_outside_reads_when_a_late_car_leaves(owner, cast, heron, shared):
    evenings(cast.owner)
    prime, refit = (JobFactory(vehicle=heron, title=title) for title in ("Prime", "Refit"))
    LinkFactory(before=prime, after=refit, wait_minutes=12 * 60, why="the primer cures")
    entry = enter(heron, NOW + timedelta(days=1))
    planned(cast.garage)
    assert "By the plan late: ready Wed 19:00, it leaves Wed 17:00." in words(owner.get("/").content.decode())
    token = make(owner, f"{shared}={getattr(entry, shared).pk}")
    page = words(Browserless().get(f"/shared/{token}/").content.decode())
    assert "By the plan late: ready Wed 19:00." in page
    assert "leaves" not in page and "17:00" not in page.replace("As of Tue 2 Mar 17:00", "")


def test_a_shared_event_costs_the_same_queries_for_three_cars_as_for_one(owner, cast, heron):
    event = EventFactory(garage=cast.garage)
    EntryFactory(event=event, vehicle=heron)
    token = make(owner, f"event={event.pk}")
    one = queries(Browserless(), f"/shared/{token}/")
    for _ in range(3):
        JobFactory(vehicle=EntryFactory(event=event).vehicle, state="done", finished_at=NOW)
    assert queries(Browserless(), f"/shared/{token}/") == one


def test_no_log_holds_a_token(owner, heron, caplog):
    token = make(owner, f"vehicle={heron.pk}")
    caplog.set_level("INFO", "garage.security")
    Browserless().get(f"/shared/{token}/")
    assert "share opened" in caplog.text
    assert "/shared/***/" in caplog.text
    assert token not in caplog.text
    settings = Config()
    logger = MaskedLogger(settings)
    asked = {
        "REQUEST_METHOD": "GET",
        "RAW_URI": f"/shared/{token}/?looked=for",
        "QUERY_STRING": "looked=for",
        "PATH_INFO": f"/shared/{token}/",
        "SERVER_PROTOCOL": "HTTP/1.1",
        "HTTP_REFERER": f"https://garage.example.org/enter/{token}/",
    }
    sent = SimpleNamespace(status="200 OK", sent=1, headers=[])
    atoms = logger.atoms(sent, SimpleNamespace(headers=[]), asked, timedelta(seconds=1))
    line = settings.access_log_format % logger.atoms_wrapper_class(atoms)
    assert '"GET /shared/***/?*** HTTP/1.1"' in line and "looked" not in line and atoms["q"] == ""
    assert "https://garage.example.org/enter/***/" in line
    assert token not in line


def test_the_server_writes_its_log_so_wherever_it_is_started_here():
    assert runpy.run_path(str(ROOT / "gunicorn.conf.py"))["logger_class"] == (
        f"{MaskedLogger.__module__}.{MaskedLogger.__name__}"
    )


@pytest.mark.parametrize("days", ["0", "91", "NaN", "1e9"])
def test_a_link_lasts_a_day_to_ninety(owner, heron, days):
    assert owner.press(f"/share/add/?vehicle={heron.pk}", {"days": days}).status_code == 422
    assert not Share.objects.exists()


def test_only_the_owner_shares_and_only_his_own(helper, stranger, cast, heron):
    assert helper.press(f"/share/add/?vehicle={heron.pk}", {"days": "1"}).status_code == 403
    assert stranger.press(f"/share/add/?vehicle={heron.pk}", {"days": "1"}).status_code == 404
    for query in ("", "vehicle=1_0", "vehicle=" + "9" * 30, "event=-1"):
        assert stranger.get(f"/share/add/?{query}").status_code == 404


def test_what_is_next_follows_the_plan(owner, cast, heron):
    """Written first, done last: a helper prepares what the evening brings."""
    JobFactory(vehicle=heron, title="Fit the fan", earliest_at=NOW + timedelta(hours=1))
    first = JobFactory(vehicle=heron, title="Read the rules")
    evenings(cast.owner)
    EntryFactory(event=EventFactory(garage=cast.garage), vehicle=heron)
    plan = planned(cast.garage)
    token = make(owner, f"vehicle={heron.pk}")
    shown = Browserless().get(f"/shared/{token}/").context["cars"][0].next
    turns = {plan.jobs[name].title: placed.start for name, placed in plan.placed.items()}
    assert set(shown) == set(turns) and first.title in shown
    assert list(shown) == sorted(shown, key=turns.__getitem__)
