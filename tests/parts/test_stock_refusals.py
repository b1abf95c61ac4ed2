"""What a move or a count refuses by itself, whatever the form before it let through."""

import pytest

from garage.actions.refused import Refused
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Balance, Move
from parts.models.part import MOST
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def nuts(cast):
    return PartFactory(garage=cast.garage, name="M8 nut")


@pytest.fixture
def bin_four(cast):
    return PlaceFactory(garage=cast.garage, name="Bin 4")


def receive(cast, part, many, target):
    return stock.move(part, "receive", many, house_place(cast.garage, "supplier"), target, by=cast.owner, at=NOW)


@pytest.mark.parametrize(("many", "sentence"), [(0, "Move at least one."), (-3, "Move at least one."),
                                                (MOST + 1, "That is more than a shelf holds.")])  # fmt: skip
def test_so_many_are_not_moved(cast, nuts, bin_four, many, sentence):
    with pytest.raises(Refused, match=sentence) as refused:
        receive(cast, nuts, many, bin_four)
    assert refused.value.field == "quantity"
    assert not Move.objects.exists()


def test_one_and_the_most_are_moved(cast, nuts, bin_four):
    receive(cast, nuts, 1, bin_four)
    receive(cast, PartFactory(garage=cast.garage), MOST, bin_four)
    assert Move.objects.count() == 2


def test_the_supplier_is_not_counted(cast, nuts):
    supplier = house_place(cast.garage, "supplier")
    with pytest.raises(Refused, match="cannot be counted") as refused:
        stock.count(nuts, supplier, 3, by=cast.owner, at=NOW)
    assert refused.value.field == "place"


def test_a_count_is_none_or_more(cast, nuts, bin_four):
    receive(cast, nuts, 2, bin_four)
    with pytest.raises(Refused, match="A count is zero or more") as refused:
        stock.count(nuts, bin_four, -1, by=cast.owner, at=NOW)
    assert refused.value.field == "counted"
    stock.count(nuts, bin_four, 0, by=cast.owner, at=NOW)
    assert Balance.objects.get(part=nuts, place=bin_four).quantity == 0


def test_one_of_a_kind_is_counted_once(cast, bin_four):
    rack = PartFactory(garage=cast.garage, name="Rack", single=True)
    with pytest.raises(Refused, match="one of a kind: there cannot be 2"):
        stock.count(rack, bin_four, 2, by=cast.owner, at=NOW)
    assert stock.count(rack, bin_four, 1, by=cast.owner, at=NOW).quantity == 1


def test_what_undoes_a_move_is_not_undone(cast, nuts, bin_four):
    undone = stock.reverse(receive(cast, nuts, 2, bin_four), by=cast.owner, at=NOW)
    with pytest.raises(Refused, match="This move undoes another"):
        stock.reverse(undone, by=cast.owner, at=NOW)
    assert Move.objects.count() == 2
