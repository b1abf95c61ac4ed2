"""How long a link lasts, how many answer by one, and whom the yes of the owner is not for: asked of the acts."""

from datetime import date, timedelta

import pytest

from garage.actions import shares, visits
from garage.actions.refused import Refused
from garage.models import VisitLink
from tests.factories import NOW, MembershipFactory, VehicleFactory

DAY, EVENING = date(2027, 3, 9), {"since": 18 * 60, "until": 22 * 60}


def test_a_link_lasts_from_one_day_to_ninety(cast):
    car = VehicleFactory(garage=cast.garage)
    for days in (1, 90):
        lasts = NOW + timedelta(days=days)
        assert shares.make(by=cast.owner, at=NOW, days=days, vehicle=car)[0].expires_at == lasts
        assert visits.make(by=cast.owner, of=None, days=days, at=NOW)[0].expires_at == lasts
    for days in (0, 91):
        with pytest.raises(Refused, match="A link lasts from 1 to 90 days"):
            shares.make(by=cast.owner, at=NOW, days=days, vehicle=car)
        with pytest.raises(Refused, match="A link lasts from 1 to 90 days"):
            visits.make(by=cast.owner, of=None, days=days, at=NOW)


def test_a_link_is_of_one_thing_of_ones_own_garage(cast):
    theirs = VehicleFactory(garage=cast.stranger.garage)
    for thing in (None, theirs):
        with pytest.raises(Refused, match="Share one car or one event of this garage"):
            shares.make(by=cast.owner, at=NOW, days=7, vehicle=thing)
    with pytest.raises(Refused, match="for somebody of this garage, or for whoever has it"):
        visits.make(by=cast.owner, of=cast.stranger, days=7, at=NOW)


@pytest.fixture
def asking(cast):
    return visits.make(by=cast.owner, of=None, days=7, at=NOW)[0]


def test_thirty_answer_by_a_link_and_no_more(cast, asking):
    for number in range(30):
        visits.say(asking, days=[DAY], at=NOW, name="Ravi", key=str(number), **EVENING)
    with pytest.raises(Refused, match="Too many have answered by this link already"):
        visits.say(asking, days=[DAY], at=NOW, name="Ravi", key="30", **EVENING)
    visits.say(asking, days=[DAY + timedelta(days=1)], at=NOW, name="Ravi", key="29", **EVENING)
    assert asking.guests.count() == 30


def test_the_owners_yes_is_for_one_who_is_not_here_yet(cast, asking):
    with pytest.raises(Refused, match="has a link of his own: say yes to that one"):
        visits.take(asking, member=None, today=DAY)
    visits.say(asking, days=[DAY], at=NOW, name="Ravi", key="1", **EVENING)
    guest = VisitLink.objects.get(parent=asking)
    with pytest.raises(Refused, match="Choose somebody of this garage"):
        visits.take(guest, member=cast.stranger, today=DAY)
    namesake = MembershipFactory(garage=cast.garage, person__name="RAVI")
    with pytest.raises(Refused, match="Somebody here is called Ravi already"):
        visits.take(guest, member=None, today=DAY)
    visits.take(guest, member=namesake, today=DAY)
    guest.refresh_from_db()
    with pytest.raises(Refused, match="belongs to this garage already"):
        visits.take(guest, member=namesake, today=DAY)
    assert guest.member == namesake


def test_a_revoked_link_takes_no_evening(cast, asking):
    visits.revoke(asking, at=NOW)
    with pytest.raises(Refused, match="This link was revoked"):
        visits.say(asking, days=[DAY], at=NOW, name="Ravi", key="1", **EVENING)
