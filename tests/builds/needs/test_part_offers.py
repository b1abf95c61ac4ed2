"""How many may answer by one link, once for each button: asked of the act itself."""

from datetime import timedelta

import pytest

from builds.needs.actions import part_offers
from garage.actions import shares
from garage.actions.refused import Refused
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory


def test_forty_wait_at_most_and_one_put_aside_makes_room(cast):
    car = VehicleFactory(garage=cast.garage)
    need = NeedFactory(job=JobFactory(vehicle=car))
    share, _ = shares.make(by=cast.owner, at=NOW, days=7, vehicle=car, parts=True)

    def say(number):
        at = NOW + timedelta(hours=number)
        part_offers.say(share, need, name="Ravi", line="One in the shed", key=str(number), at=at)

    for number in [*range(40), 39]:
        say(number)
    assert share.offers.count() == 40
    with pytest.raises(Refused, match="Too many have answered already"):
        say(40)
    part_offers.put_aside(share.offers.first(), at=NOW)
    say(40)
    assert share.offers.count() == 41
