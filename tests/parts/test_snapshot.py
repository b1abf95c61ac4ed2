"""The balances proved against the moves, and written anew from them."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from garage.models import Garage
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Balance, Move
from tests.conftest import queries
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def shelf(cast):
    spot, part = (
        PlaceFactory(garage=cast.garage, name="Shelf A"),
        PartFactory(garage=cast.garage, name="Hub nut"),
    )
    supplier = house_place(cast.garage, "supplier")
    for _ in range(3):
        stock.move(part, "receive", 2, supplier, spot, by=cast.owner, at=NOW)
    return spot


def checked(**options):
    out = StringIO()
    call_command("check_ledger", stdout=out, **options)
    return out.getvalue()


def rows():
    return set(Balance.objects.values_list("part_id", "place_id", "quantity", "outside"))


def test_a_whole_ledger_is_proved(shelf):
    assert checked() == "Every balance is the sum of its moves: 3 moves.\n"


def test_a_balance_that_is_off_is_named_and_written_anew(shelf, capsys):
    Balance.objects.filter(place=shelf).update(quantity=5)
    out = StringIO()
    with pytest.raises(CommandError, match="1 balances are not the sum of their moves"):
        call_command("check_ledger", stdout=out)
    assert out.getvalue() == "Hub nut at Shelf A: the balance says 5, the moves 6.\n"
    assert "2 balances are written anew." in checked(rebuild=True)
    assert Balance.objects.get(place=shelf).quantity == 6


def test_one_that_is_missing_or_of_no_move_is_found(shelf, cast):
    Balance.objects.filter(place=shelf).delete()
    Balance.objects.create(part=PartFactory(garage=cast.garage), place=shelf, quantity=1)
    with pytest.raises(CommandError, match="2 balances"):
        checked()
    checked(rebuild=True)
    assert [row.quantity for row in Balance.objects.filter(place=shelf)] == [6]


def test_balances_written_anew_are_counted_as_a_write(shelf, cast):
    before = Garage.objects.get(pk=cast.garage.pk).writes
    checked(rebuild=True)
    assert Garage.objects.get(pk=cast.garage.pk).writes == before + 1


def test_written_anew_it_is_what_it_was(shelf):
    before = rows()
    checked(rebuild=True)
    assert rows() == before


def test_a_balance_is_read_without_its_moves(shelf, owner, cast):
    path = f"/places/{shelf.pk}/"
    first = queries(owner, path)
    supplier, part = house_place(cast.garage, "supplier"), shelf.balances.get().part
    for _ in range(20):
        stock.move(part, "receive", 1, supplier, shelf, by=cast.owner, at=NOW)
    assert queries(owner, path) == first


def test_moves_that_take_more_than_there_was_are_one_sentence_and_write_nothing(shelf, cast):
    part, bench = Balance.objects.get(place=shelf).part, house_place(cast.garage, "bench")
    Move.objects.create(part=part, verb="pull", quantity=9, source=shelf, target=bench, by=cast.owner, at=NOW)
    before = rows()
    with pytest.raises(CommandError, match="The moves of Hub nut leave -3 at Shelf A: the ledger"):
        call_command("check_ledger", rebuild=True, stdout=StringIO())
    assert rows() == before
