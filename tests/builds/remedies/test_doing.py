"""One tap does all of it, once, or nothing."""

import uuid

import pytest

from builds.plan.models import Plan
from builds.remedies.actions import remedies
from builds.remedies.deeds.session import SessionDeed
from garage.actions.refused import Refused
from garage.models import DayHours
from tests.builds.remedies.remedy_kit import TOMORROW, address, card, late_entry, lonely_car
from tests.factories import NOW

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def late(cast):
    return late_entry(cast, lonely_car(cast))


def test_a_double_tap_does_it_once(owner, late):
    data = {"do": card(owner, late, "session"), "key": str(uuid.uuid4())}
    for _ in range(2):
        assert owner.post(address(late, "apply/"), data).status_code == 303
    assert DayHours.objects.count() == 1


def test_all_of_it_or_nothing(cast, late):
    good = SessionDeed(cast.owner.pk, 1080, 1320, TOMORROW)
    bad = SessionDeed(cast.owner.pk, 1200, 1400, TOMORROW)
    with pytest.raises(Refused, match="overlap"):
        remedies.apply((good, bad), by=cast.owner, at=NOW)
    assert not DayHours.objects.exists()
    assert Plan.objects.count() == 1
