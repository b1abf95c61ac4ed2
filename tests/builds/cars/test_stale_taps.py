"""A button of a car does nothing once the car has moved on, and says so."""

from html import unescape

import pytest

from tests.factories import NOW, VehicleFactory


@pytest.fixture
def heron(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron", state="rolling")


def test_a_car_that_another_put_on_stands_stays_there(owner, heron):
    answer = owner.press(f"/cars/{heron.pk}/state/", {"state": "driveable", "stood": "stands"})
    said = owner.get(answer["Location"]).content.decode()
    assert "Heron is rolling, not driveable now, and was on stands when this was drawn." in said
    heron.refresh_from_db()
    assert heron.state == "rolling"
    owner.press(f"/cars/{heron.pk}/state/", {"state": "driveable", "stood": "rolling"})
    heron.refresh_from_db()
    assert heron.state == "driveable"


def test_a_second_tap_on_it_has_gone_does_not_bring_the_car_back(owner, heron):
    for _ in range(2):
        owner.press(f"/cars/{heron.pk}/go/", {"stood": "here"})
        heron.refresh_from_db()
        assert heron.gone_at == NOW
    owner.press(f"/cars/{heron.pk}/go/", {"stood": "gone"})
    heron.refresh_from_db()
    assert heron.gone_at is None


def test_the_buttons_carry_what_they_were_drawn_in(owner, heron):
    assert 'name="stood" value="rolling"' in owner.get(f"/cars/{heron.pk}/").content.decode()
    assert 'name="stood" value="here"' in owner.get(f"/cars/{heron.pk}/edit/").content.decode()


def test_a_stripped_car_is_not_driveable_by_a_tap(owner, cast, heron, monkeypatch):
    monkeypatch.setattr("builds.cars.actions.stripped_until", lambda vehicle, at: "Refit the arm")
    answer = owner.press(f"/cars/{heron.pk}/state/", {"state": "driveable", "stood": "rolling"})
    said = unescape(owner.get(answer["Location"]).content.decode())
    assert "Heron is stripped until “Refit the arm” is done: it cannot be driven before that." in said
    heron.refresh_from_db()
    assert heron.state == "rolling"
    owner.press(f"/cars/{heron.pk}/state/", {"state": "stands", "stood": "rolling"})
    heron.refresh_from_db()
    assert heron.state == "stands"
