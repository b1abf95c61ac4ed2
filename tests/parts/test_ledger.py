"""The ledger: nothing below zero, one of a kind in one place, moves that stay as written."""

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from garage.actions.refused import Refused
from parts.actions import stock
from parts.actions.places import car_place, house_place
from parts.models import Balance, LedgerError, Move
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def bench(cast):
    """A shelf, a car, a counted part and one of a kind, all in the cast's garage."""

    class Bench:
        garage = cast.garage
        supplier = house_place(cast.garage, "supplier")
        scrap = house_place(cast.garage, "scrap")
        workbench = house_place(cast.garage, "bench")
        away = house_place(cast.garage, "repair")
        shelf = PlaceFactory(garage=cast.garage, name="Shelf A")
        bin = PlaceFactory(garage=cast.garage, name="Bin 1", kind="bin")
        car = car_place(VehicleFactory(garage=cast.garage, name="Heron"))
        nuts = PartFactory(garage=cast.garage, name="M12 nyloc nut", one_use=True)
        rack = PartFactory(garage=cast.garage, name="Rack", single=True)

        @staticmethod
        def move(part, verb, quantity, source, target):
            return stock.move(part, verb, quantity, source, target, by=cast.owner, at=NOW)

        @staticmethod
        def reverse(mistake):
            return stock.reverse(mistake, by=cast.owner, at=NOW)

        @staticmethod
        def count(part, place, found):
            return stock.count(part, place, found, by=cast.owner, at=NOW)

    return Bench


def held(part, place):
    return sum(Balance.objects.filter(part=part, place=place).values_list("quantity", flat=True))


def test_a_move_shifts_both_balances(bench):
    bench.move(bench.nuts, "receive", 20, bench.supplier, bench.shelf)
    bench.move(bench.nuts, "fit", 6, bench.shelf, bench.car)
    assert (held(bench.nuts, bench.shelf), held(bench.nuts, bench.car)) == (14, 6)
    assert held(bench.nuts, bench.supplier) == -20


def test_nothing_goes_below_zero(bench):
    bench.move(bench.nuts, "receive", 3, bench.supplier, bench.shelf)
    with pytest.raises(Refused, match="Shelf A has 3 pieces of M12 nyloc nut left, not 4"):
        bench.move(bench.nuts, "fit", 4, bench.shelf, bench.car)
    assert held(bench.nuts, bench.shelf) == 3
    with pytest.raises(IntegrityError), transaction.atomic():
        Balance.objects.filter(part=bench.nuts, place=bench.shelf).update(quantity=-1)


def test_one_of_a_kind_is_received_once_and_moved_alone(bench):
    bench.move(bench.rack, "receive", 1, bench.supplier, bench.shelf)
    with pytest.raises(Refused, match="one of a kind, and is at Shelf A already"):
        bench.move(bench.rack, "receive", 1, bench.supplier, bench.bin)
    with pytest.raises(Refused, match="only one to move"):
        bench.move(bench.rack, "put", 2, bench.shelf, bench.bin)


def test_what_is_used_once_comes_off_to_the_scrap_alone(bench):
    bench.move(bench.nuts, "receive", 4, bench.supplier, bench.shelf)
    bench.move(bench.nuts, "fit", 4, bench.shelf, bench.car)
    with pytest.raises(Refused, match="used once"):
        bench.move(bench.nuts, "take_off", 4, bench.car, bench.shelf)
    bench.move(bench.nuts, "take_off", 4, bench.car, bench.scrap)


@pytest.mark.parametrize(
    ("verb", "to"), [("take_off", "shelf"), ("take_off", "bin"), ("pull", "workbench"), ("repair", "away")]
)
def test_a_used_lock_nut_never_goes_back_to_stock(bench, verb, to):
    bench.move(bench.nuts, "receive", 4, bench.supplier, bench.shelf)
    bench.move(bench.nuts, "fit", 4, bench.shelf, bench.car)
    with pytest.raises(Refused, match="used once"):
        bench.move(bench.nuts, verb, 1, bench.car, getattr(bench, to))
    assert (held(bench.nuts, bench.car), held(bench.nuts, bench.shelf)) == (4, 0)


def test_what_lasts_goes_back_to_stock(bench):
    bench.move(bench.rack, "receive", 1, bench.supplier, bench.shelf)
    bench.move(bench.rack, "fit", 1, bench.shelf, bench.car)
    bench.move(bench.rack, "take_off", 1, bench.car, bench.shelf)
    assert held(bench.rack, bench.shelf) == 1


@pytest.mark.parametrize("quantity", [0, -1])
def test_less_than_one_is_not_moved(bench, quantity):
    with pytest.raises(Refused, match="at least one"):
        bench.move(bench.nuts, "receive", quantity, bench.supplier, bench.shelf)


def test_a_count_below_zero_or_of_two_of_a_kind_is_refused(bench):
    with pytest.raises(Refused, match="zero or more"):
        bench.count(bench.nuts, bench.shelf, -1)
    with pytest.raises(Refused, match="there cannot be 2"):
        bench.count(bench.rack, bench.shelf, 2)
    assert bench.count(bench.nuts, bench.shelf, 0) is None
    assert bench.count(bench.rack, bench.shelf, 1).quantity == 1


def test_a_place_of_another_garage_is_refused(bench):
    foreign = PlaceFactory(name="Foreign shelf")
    with pytest.raises(Refused, match="in the same garage"):
        bench.move(bench.nuts, "receive", 1, bench.supplier, foreign)


def test_a_mistake_is_reversed_once(bench):
    bench.move(bench.nuts, "receive", 4, bench.supplier, bench.shelf)
    mistake = bench.move(bench.nuts, "fit", 4, bench.shelf, bench.car)
    undone = bench.reverse(mistake)
    assert held(bench.nuts, bench.shelf) == 4
    for move in (mistake, undone):
        with pytest.raises(Refused):
            bench.reverse(move)


def test_one_of_a_kind_that_was_missed_and_came_again_is_not_counted_back(bench):
    bench.move(bench.rack, "receive", 1, bench.supplier, bench.shelf)
    missed = bench.count(bench.rack, bench.shelf, 0)
    bench.move(bench.rack, "receive", 1, bench.supplier, bench.bin)
    with pytest.raises(Refused, match="one of a kind, and is at Bin 1 already"):
        bench.reverse(missed)
    with pytest.raises(Refused, match="one of a kind, and is at Bin 1 already"):
        bench.count(bench.rack, bench.shelf, 1)


def test_a_count_writes_the_difference(bench):
    bench.move(bench.nuts, "receive", 10, bench.supplier, bench.shelf)
    assert bench.count(bench.nuts, bench.shelf, 8).quantity == 2
    assert bench.count(bench.nuts, bench.shelf, 8) is None
    bench.count(bench.nuts, bench.shelf, 11)
    assert held(bench.nuts, bench.shelf) == 11


@pytest.mark.parametrize(
    "change",
    [
        lambda move: move.save(),
        lambda move: move.delete(),
        lambda move: Move.objects.update(quantity=1),
        lambda move: Move.objects.all().delete(),
        lambda move: Move.objects.bulk_update([move], ["quantity"]),
        lambda move: Move.objects.update_or_create(pk=move.pk, defaults={"quantity": 1}),
        lambda move: Move._base_manager.filter(pk=move.pk).delete(),
    ],
)
def test_django_refuses_to_change_a_move(bench, change):
    move = bench.move(bench.nuts, "receive", 10, bench.supplier, bench.shelf)
    with pytest.raises(LedgerError):
        change(move)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE parts_move SET quantity = 1",
        "DELETE FROM parts_move",
        "INSERT OR REPLACE INTO parts_move SELECT * FROM parts_move",
        "TRUNCATE parts_move CASCADE",
    ],
)
def test_the_database_refuses_too(bench, statement):
    only = {"INSERT OR": "sqlite", "TRUNCATE ": "postgresql"}.get(statement[:9])
    if only and connection.vendor != only:
        assert connection.vendor in ("sqlite", "postgresql")
        return
    bench.move(bench.nuts, "receive", 10, bench.supplier, bench.shelf)
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)
    assert Move.objects.get().quantity == 10
