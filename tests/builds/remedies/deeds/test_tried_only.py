"""Deeds that nobody is offered, and that a trial makes: a day off, a warm shop, entries and weights."""

import pytest

from builds.cure.models.shop import ShopDay
from builds.remedies.deeds.enter import EnterDeed
from builds.remedies.deeds.hold import HoldDeed
from builds.remedies.deeds.off import OffDeed
from builds.remedies.deeds.weigh import WeighDeed
from garage.actions.refused import Refused
from garage.models import DayHours, Entry
from tests.builds.remedies.remedy_kit import TOMORROW
from tests.factories import VehicleFactory


def test_a_day_off(cast, late, do):
    said = do(OffDeed(cast.owner.pk, TOMORROW))
    assert said == "Ines is not in on Wed 3 Mar. To undo: take that day out on the page of Ines."
    assert DayHours.objects.get().kind == "off"


def test_the_shop_at_one_temperature(cast, late, do):
    said = do(HoldDeed(21_500, TOMORROW))
    assert said == ("The shop stays at 21.5 °C from Wed 3 Mar on. To undo: change the days on the page of the shop.")
    shop = ShopDay.objects.get()
    assert (shop.low_mc, shop.high_mc) == (21_500, 21_500)


def test_a_car_entered(cast, late, do):
    tug = VehicleFactory(garage=cast.garage, name="Tug")
    said = do(EnterDeed(late.event_id, tug.pk, 2))
    assert said == (
        "Tug goes to Saltmarsh Hill Climb and matters 2 of 9. To undo: take the car out on the page of the event."
    )
    assert Entry.objects.get(vehicle=tug).weight == 2


def test_an_entry_counts_more(late, do):
    said = do(WeighDeed(late.pk, 5))
    assert said == (
        "Heron at Saltmarsh Hill Climb matters 5 of 9, not 1. To undo: change it back on the page of the event."
    )
    late.refresh_from_db()
    assert late.weight == 5


def test_figures_out_of_bounds(late, do):
    with pytest.raises(Refused, match="between 1 and 9"):
        do(WeighDeed(late.pk, 12))
    with pytest.raises(Refused, match="between 1 and 9"):
        do(EnterDeed(late.event_id, VehicleFactory(garage=late.event.garage).pk, 0))
    with pytest.raises(Refused, match="no temperature"):
        do(HoldDeed(99_000, TOMORROW))
