"""A drawn button counts once: double taps, fifty at a time, stale keys, mended forms."""

import threading
import uuid
from datetime import timedelta

import pytest
from django.db import connection, connections

from garage import keys
from garage.actions.sign_in import forget_receipts
from garage.models import Receipt, Station
from tests.conftest import Browserless
from tests.factories import NOW, VehicleFactory
from tests.pictures import as_file, jpeg

KEY = "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"
FORM = {"key": KEY, "name": "Welding bench", "capacity": "1"}
ADD = "/stations/add/"


def test_a_double_tap_gets_the_first_answer_again(owner):
    first, second = owner.post(ADD, FORM), owner.post(ADD, FORM)
    assert (first.status_code, second.status_code) == (303, 303)
    assert first["Location"] == second["Location"]
    assert "Idempotency-Replayed" not in first
    assert second["Idempotency-Replayed"] == "true"
    assert Station.objects.count() == Receipt.objects.count() == 1


def test_a_key_may_come_as_a_header(owner):
    bare = {name: value for name, value in FORM.items() if name != "key"}
    for _ in range(2):
        owner.post(ADD, bare, headers={"Idempotency-Key": KEY})
    assert Station.objects.count() == 1


@pytest.mark.parametrize("change", [{"name": "Other"}, {"capacity": "2"}, {"always_open": "on"}])
def test_a_used_key_with_another_body_is_refused(owner, change):
    owner.post(ADD, FORM)
    answer = owner.post(ADD, {**FORM, **change})
    assert answer.status_code == 422
    assert "used already, for something else" in answer.content.decode()
    assert Station.objects.count() == 1


def test_a_used_key_on_another_page_is_refused(owner):
    owner.post(ADD, FORM)
    assert owner.post("/people/add/", FORM).status_code == 422


def test_the_csrf_token_is_no_part_of_the_body(owner):
    owner.post(ADD, {**FORM, "csrfmiddlewaretoken": "one"})
    assert owner.post(ADD, {**FORM, "csrfmiddlewaretoken": "two"}).status_code == 303
    assert Station.objects.count() == 1


@pytest.mark.parametrize("hidden", ["\u200b", "\u202e", "\ufeff", "\x07", "\u2067"])
def test_what_hides_in_a_text_is_not_kept(owner, hidden):
    answer = owner.press(ADD, {"name": hidden, "capacity": "1"})
    assert answer.status_code == 422
    assert "name" in answer.context["form"].errors
    owner.press(ADD, {"name": f"Weld{hidden}ing {hidden}bench", "capacity": "1"})
    assert Station.objects.get().name == "Welding bench"


def test_another_picture_under_the_same_key_is_another_picture(owner, cast):
    car = VehicleFactory(garage=cast.garage)
    first, second = jpeg(), jpeg()
    altered = bytearray(second.read())
    altered[-3] ^= 1  # as long as the first, under the same name
    url = f"/photos/of/car/{car.pk}/add/"
    assert owner.post(url, {"key": KEY, "pictures": first}).status_code == 303
    other = as_file(bytes(altered), second.name)
    answer = owner.post(url, {"key": KEY, "pictures": other})
    assert answer.status_code == 422
    assert "used already, for something else" in answer.content.decode()
    first.seek(0)
    assert owner.post(url, {"key": KEY, "pictures": first})["Idempotency-Replayed"] == "true"


def test_a_refused_form_leaves_nothing_and_can_be_mended_and_sent_again(owner):
    assert owner.post(ADD, {**FORM, "tue": "22-18"}).status_code == 422
    assert not Receipt.objects.exists()
    assert owner.post(ADD, {**FORM, "tue": "18-22"}).status_code == 303
    assert Station.objects.count() == 1


def test_what_breaks_half_way_leaves_nothing(owner, monkeypatch):
    def breaks(*args, **kwargs):
        raise RuntimeError

    owner.raise_request_exception = False
    with monkeypatch.context() as patch:
        patch.setattr("garage.actions.stations._set_week", breaks)
        assert owner.post(ADD, FORM).status_code == 500
    assert not Station.objects.exists()
    assert not Receipt.objects.exists()
    assert owner.post(ADD, FORM).status_code == 303


def test_keys_of_two_people_are_two_keys(owner, stranger):
    owner.post(ADD, FORM)
    stranger.post(ADD, FORM)
    assert Station.objects.count() == 2


@pytest.mark.parametrize("key", ["", "no key", "7f1d3a52", "x" * 10_000])
def test_without_a_key_nothing_is_written(owner, key):
    answer = owner.post(ADD, {**FORM, "key": key})
    assert answer.status_code == 400
    assert "came without its key" in answer.content.decode()
    assert not Station.objects.exists()


def test_every_drawing_has_a_key_of_its_own(owner):
    keys = {owner.get(ADD).content.decode().split('name="key" value="')[1][:36] for _ in range(2)}
    assert len(keys) == 2
    assert all(uuid.UUID(key) for key in keys)


@pytest.fixture
def file_database(owner, tmp_path, monkeypatch):
    """New threads find the cast in a file, where SQLite locks as it does in a garage."""
    if connection.vendor == "sqlite":
        file = tmp_path / "garage.sqlite3"
        with connection.cursor() as cursor:
            cursor.execute("VACUUM INTO %s", [str(file)])
        default = {**connections.databases["default"], "NAME": str(file)}
        monkeypatch.setitem(connections.databases, "default", default)


def at_once(number, act):
    """What `act` returns in so many threads that start together."""
    found, start = [], threading.Barrier(number)

    def run():
        start.wait()
        try:
            found.append(act())
        finally:
            connection.close()

    threads = [threading.Thread(target=run) for _ in range(number)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


@pytest.mark.django_db(transaction=True)
def test_fifty_presses_at_the_same_moment_are_one(owner, file_database):
    def press():
        client = Browserless(raise_request_exception=False)
        client.cookies = owner.cookies
        answer = client.post(ADD, FORM)
        return answer.status_code, answer.headers.get("Location")

    assert at_once(50, press) == [(303, "/stations/")] * 50
    assert at_once(1, lambda: (Station.objects.count(), Receipt.objects.count())) == [(1, 1)]


@pytest.mark.django_db(transaction=True)
def test_fifty_wrong_passwords_at_the_same_moment_hash_five(cast, file_database, monkeypatch):
    monkeypatch.setattr("garage.actions.sign_in.PATIENCE", 60)
    data = {"email": "nobody@example.org", "password": "a guess at it"}

    def press():
        return Browserless(raise_request_exception=False).post("/sign-in/", data).status_code

    assert sorted(at_once(50, press)) == [422] * 5 + [429] * 45


def test_a_key_tells_when_it_was_drawn_and_is_random_besides():
    drawn = {keys.drawn(NOW) for _ in range(200)}
    assert len(drawn) == 200 and all(key.version == 7 for key in drawn)
    key = drawn.pop()
    assert not keys.too_old(key, NOW + keys.LASTS - timedelta(seconds=1))
    assert keys.too_old(key, NOW + keys.LASTS + timedelta(seconds=1))
    assert not keys.too_old(uuid.UUID(KEY), NOW + timedelta(days=9999))


def test_a_button_of_last_season_is_gone(owner, now):
    form = {**FORM, "key": str(keys.drawn(NOW - timedelta(days=31)))}
    answer = owner.post(ADD, form)
    assert answer.status_code == 410
    assert "drawn more than a month ago" in answer.content.decode()
    assert not Station.objects.exists()


def test_old_receipts_are_forgotten_and_young_ones_kept(owner, now):
    owner.post(ADD, FORM)
    Receipt.objects.update(at=NOW - timedelta(days=30, hours=23))
    forget_receipts(at=NOW)
    assert Receipt.objects.count() == 1
    Receipt.objects.update(at=NOW - timedelta(days=31, hours=1))
    forget_receipts(at=NOW)
    assert not Receipt.objects.exists()
