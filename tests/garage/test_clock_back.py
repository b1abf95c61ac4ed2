"""The server's clock set back between two writes: the second still comes after the first."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse

from builds.readings.models.reading import Reading
from builds.work.models.job import Job
from garage import clock as the_clock
from garage.actions import sign_in
from garage.engine.tries import SHARE_PHRASE, counted, seconds_to_wait
from garage.models import Garage, JournalLine, Receipt
from garage.pages.server import server_lines
from tests.conftest import signed_in
from tests.factories import NOW, JobFactory, VehicleFactory

READING = {"value_fl": "0.05", "value_fr": "0.10", "instrument": "string box", "fuel_ml": "20", "driver": "aboard",
           "front_pa": "1.9", "rear_pa": "1.8", "floor": "levelled"}  # fmt: skip
BACK = timedelta(hours=3)


@pytest.fixture
def hand(monkeypatch):
    """The clock of the machine itself: what it says is set by moving `at`."""

    class Hand:
        at = NOW

    monkeypatch.setattr("django.utils.timezone.now", lambda: Hand.at)
    return Hand


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def measure(helper, cast, car):
    path = reverse("reading_add", args=[car.pk, "toe_front"])
    assert helper.press(path, {**READING, "who": cast.helper.pk}).status_code == 303


def finish(helper, job):
    for step, data in (("start", {}), ("finish", {"told": "on", "kinds": ["steering_arm"]})):
        answer = helper.press(reverse(f"job_{step}", args=[job.pk]), data)
        assert answer.status_code == 303, answer.context["form"].errors


def test_work_after_a_reading_makes_it_void_though_the_clock_was_set_back_in_between(hand, helper, cast, car):
    job = JobFactory(vehicle=car, made_by=cast.owner, kinds=["steering_arm"], systems=["steering"])
    measure(helper, cast, car)
    hand.at = NOW - BACK
    finish(helper, job)
    job.refresh_from_db()
    assert job.finished_at >= Reading.objects.get().written_at == NOW
    lines = list(JournalLine.objects.order_by("pk").values_list("at", flat=True))
    assert lines == sorted(lines) and len(lines) == 3
    assert Garage.objects.get(pk=cast.garage.pk).written_at == NOW


def test_a_reading_after_work_is_not_void_though_the_clock_was_set_back_in_between(hand, helper, cast, car):
    job = JobFactory(vehicle=car, made_by=cast.owner, kinds=["steering_arm"], systems=["steering"])
    finish(helper, job)
    hand.at = NOW - BACK
    measure(helper, cast, car)
    assert Reading.objects.get().at >= Job.objects.get(pk=job.pk).finished_at


def test_a_clock_that_was_far_ahead_holds_nothing_up_once_it_is_right(hand, helper, cast, car, caplog):
    hand.at = NOW + timedelta(days=2)
    measure(helper, cast, car)
    hand.at = NOW
    measure(helper, cast, car)
    assert Reading.objects.order_by("pk").last().at == NOW
    assert "before the last write" in caplog.text
    assert Garage.objects.get(pk=cast.garage.pk).written_at == NOW


def test_keys_receipts_sessions_and_links_outlive_it(hand, helper, cast, db):
    key, station = str(uuid.uuid4()), {"name": "Lathe", "capacity": "1"}
    owner = cast.client("owner")
    assert owner.get("/").status_code == 200
    assert owner.post("/stations/add/", {"key": key, **station}).status_code == 303
    token = sign_in.make_link(cast.helper.person, lasts=sign_in.OWN_LINK, at=hand.at)
    hand.at = NOW - BACK
    again = owner.post("/stations/add/", {"key": key, **station})
    assert (again.status_code, again["Idempotency-Replayed"]) == (303, "true")
    assert Receipt.objects.filter(key=key).count() == 1
    assert owner.get("/").status_code == 200
    guest = signed_in(None)
    assert guest.post(f"/enter/{token}/").status_code == 303
    assert guest.post(f"/enter/{token}/").status_code != 200
    drawn = owner.get("/stations/add/").content.decode().split('name="key" value="')[1][:36]
    hand.at = NOW - 2 * BACK
    assert owner.post("/stations/add/", {"key": drawn, **station, "name": "Press"}).status_code == 303


def test_nobody_waits_at_the_door_until_the_clock_has_caught_up():
    far = SHARE_PHRASE.free + 3
    assert seconds_to_wait(SHARE_PHRASE, far, 0.0) > 0
    assert seconds_to_wait(SHARE_PHRASE, far, -BACK.total_seconds()) == 0
    assert counted(SHARE_PHRASE, far, -60.0) == far and counted(SHARE_PHRASE, far, -61.0) == 0
    assert seconds_to_wait(SHARE_PHRASE, far, -1.0) == seconds_to_wait(SHARE_PHRASE, far, 0.0)


def test_the_keeper_is_told(hand, cast, db):
    Garage.objects.filter(pk=cast.garage.pk).update(written_at=NOW)
    for back, said in ((timedelta(seconds=60), []), (BACK, ["Clock"])):
        lines = server_lines(NOW - back, the_clock.zone())
        assert [line.name for line in lines if line.wrong and line.name == "Clock"] == said
    (line,) = [line for line in lines if line.name == "Clock"]
    assert line.words == "stands at Tue 2 Mar 14:00, and something was saved at Tue 2 Mar 17:00: set it right"
