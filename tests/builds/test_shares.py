"""Share links: shown once, kept as a digest, dead the moment they are revoked."""

import re
from datetime import timedelta

import pytest

from garage.models import Share
from tests.conftest import Browserless
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, VehicleFactory


@pytest.fixture
def heron(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"])
    VehicleFactory(garage=cast.garage, name="Badger")
    return car


def make(owner, query):
    page = owner.press(f"/share/add/?{query}", {"days": "14", "label": "the club"})
    assert page.status_code == 200
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
    malformed = stranger.get("/shared/%00/")
    for answer in (wrong, revoked, expired, malformed):
        assert answer.status_code == 404
        assert answer.content == wrong.content


def test_reading_changes_nothing(owner, heron):
    token = make(owner, f"vehicle={heron.pk}")
    before = Share.objects.values().get()
    for _ in range(5):
        Browserless().get(f"/shared/{token}/")
    assert Share.objects.values().get() == before
    assert Browserless().post(f"/shared/{token}/").status_code in (403, 405)


def test_guessing_ends_in_silence_for_that_address_alone(owner, heron):
    token = make(owner, f"vehicle={heron.pk}")
    guesser = Browserless()
    for number in range(31):
        assert guesser.get(f"/shared/guess{number}/").status_code == 404
    assert guesser.get(f"/shared/{token}/").status_code == 404
    assert Browserless(REMOTE_ADDR="198.51.100.7").get(f"/shared/{token}/").status_code == 200


@pytest.mark.parametrize("days", ["0", "91", "NaN", "1e9"])
def test_a_link_lasts_a_day_to_ninety(owner, heron, days):
    assert owner.press(f"/share/add/?vehicle={heron.pk}", {"days": days}).status_code == 422
    assert not Share.objects.exists()


def test_only_the_owner_shares_and_only_his_own(helper, stranger, cast, heron):
    assert helper.press(f"/share/add/?vehicle={heron.pk}", {"days": "1"}).status_code == 403
    assert stranger.press(f"/share/add/?vehicle={heron.pk}", {"days": "1"}).status_code == 404
    for query in ("", "vehicle=1_0", "vehicle=" + "9" * 30, "event=-1"):
        assert stranger.get(f"/share/add/?{query}").status_code == 404
