"""The job that a car's page offers first is the one that the plan begins first."""

import pytest

from builds.plan.actions.follow import follow
from builds.steps.actions import steps
from tests.builds.plan.plan_kit import evenings, job
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def wren(cast):
    """One person, who is in from 20:00 on."""
    evenings(cast.owner, since=20)
    return VehicleFactory(garage=cast.garage, name="Wren")


def offered(client, car):
    return client.get(f"/cars/{car.pk}/").context["jobs"].now


def test_what_wants_more_hands_than_there_are_is_not_offered_first(owner, cast, wren):
    pads = job(wren, cast, "Level the pads", rank="safety", hands=3)
    job(wren, cast, "Oil change", rank="wanted")
    follow(cast.garage, at=NOW)
    (card,) = offered(owner, wren)
    assert (card.title, card.kicker, card.steps) == ("Oil change", "planned for 20:00", ("start",))
    (group,) = owner.get(f"/cars/{wren.pk}/").context["jobs"].groups
    assert [card.title for card in group.to_do] == ["Level the pads"]
    pads.delete()


def test_what_is_in_hand_comes_before_what_is_planned(owner, cast, wren):
    job(wren, cast, "Fit the fan", rank="safety")
    begun = job(wren, cast, "Oil change", rank="wanted")
    follow(cast.garage, at=NOW)
    assert [card.title for card in offered(owner, wren)] == ["Fit the fan"]
    steps.start(begun, by=cast.owner, at=NOW)
    assert [card.title for card in offered(owner, wren)] == ["Oil change"]
