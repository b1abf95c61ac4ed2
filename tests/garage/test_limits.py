"""Who asks too often is told so, nothing of it is kept, and nobody else waits for him."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from garage import limits
from garage.engine.limits import Meter
from garage.models import Skill, Vehicle
from tests.conftest import signed_in
from tests.factories import MembershipFactory


@pytest.fixture
def moment(monkeypatch, settings):
    """The clock of the limits, in seconds; few of everything."""
    settings.MOST_A_MINUTE, settings.MOST_OF_A_GARAGE = {"saves": 4, "searches": 2, "uploads": 1}, 2
    hand = [1000.0]
    monkeypatch.setattr(limits, "meter", Meter())
    monkeypatch.setattr(limits.time, "monotonic", lambda: hand[0])
    return hand


def test_saves_searches_and_uploads_of_a_person_and_of_a_garage(cast, moment, lines):
    owner, helper = cast.client("owner"), cast.client("helper")

    def save(client, name):
        return client.press("/skills/add/", {"name": name}).status_code

    assert [save(owner, f"Trim {number}") for number in range(5)] == [303, 303, 303, 303, 429]
    assert not Skill.objects.in_garage(cast.garage).filter(name="Trim 4").exists()
    told = owner.press("/skills/add/", {"name": "Trim 4"})
    assert told["Retry-After"] == "15" and '"throttled"' in lines[-1] and "Trim" not in lines[-1]
    assert (
        "You asked for more than 4 saves in a minute, and nothing of this one was saved: wait 15 seconds, then send it"
        in " ".join(told.content.decode().split())
    )
    assert owner.get("/cars/").status_code == 200  # who reads is not counted
    # Another garage is none of this one's, and a helper has his own until the garage is through with its own.
    assert save(signed_in(cast.stranger), "Trim") == 303
    assert [helper.press("/plan/search/", {}).status_code for _ in range(3)][-1] == 429
    assert [helper.press("/stations/add/", {}).status_code for _ in range(5)] == [403, 403, 403, 403, 429]
    other = signed_in(MembershipFactory(garage=cast.garage, role="helper"))
    whole = other.press("/stations/add/", {})
    assert whole.status_code == 429 and b"This garage asked for more than 8 saves" in whole.content
    moment[0] += 15
    assert save(owner, "Trim 4") == 303


def test_uploads_have_a_limit_of_their_own_and_are_not_read_beyond_it(cast, moment):
    car = Vehicle.objects.create(garage=cast.garage, name="Wagtail", tape="red", state="driveable")
    sent = [
        cast.client("owner").press(
            f"/photos/of/car/{car.pk}/add/", {"pictures": SimpleUploadedFile("a.jpg", b"no picture", "image/jpeg")}
        )
        for _ in range(2)
    ]
    assert [answer.status_code for answer in sent] == [422, 429]
    assert b"more than 1 uploads in a minute, and nothing of this one was uploaded" in sent[1].content


def test_the_two_hundred_that_a_phone_sends_when_it_has_signal_again_all_go_through(settings):
    """As they are shipped, on one web process and in one moment; four phones of a garage likewise."""
    from garage import settings as shipped

    meter = Meter()
    most, all_of_it = shipped.MOST_A_MINUTE["saves"], shipped.MOST_A_MINUTE["saves"] * shipped.MOST_OF_A_GARAGE
    for person in range(4):
        held = (limits.Allowance(f"person {person}", most), limits.Allowance("garage", all_of_it))
        assert all(meter.claim(held, 0.0) is None for _ in range(200))
