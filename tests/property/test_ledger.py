"""Any sequence of verbs: balances are the sums of moves, never negative, one of a kind in one."""

import pytest
from django.db import transaction
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from builds.shelf.actions import shelf
from garage.actions.refused import Refused
from parts.actions import stock
from parts.actions.places import car_place, house_place
from parts.actions.snapshot import faults, rebuild
from parts.engine.ledger import VERBS, LedgerLine, fold
from parts.models import Balance, Move, Part, Place
from tests.factories import NOW, MembershipFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory
from tests.property.tries import tries

PLACES = st.integers(0, 8)
MOVED = st.integers(0, 5)


class Ledger(RuleBasedStateMachine):
    """A garage with four parts and nine places; what it may hold is kept in a plain dict beside."""

    def __init__(self) -> None:
        super().__init__()
        self.transaction = transaction.atomic()
        self.transaction.__enter__()
        self.member = MembershipFactory(role="owner")
        garage = self.member.garage
        self.parts = [
            PartFactory(garage=garage),
            PartFactory(garage=garage, one_use=True),
            PartFactory(garage=garage, single=True),
            PartFactory(garage=garage, single=True, systems=["steering"]),
        ]
        cars = [VehicleFactory(garage=garage) for _ in range(2)]
        self.places = [
            *(PlaceFactory(garage=garage, kind=kind) for kind in ("shelf", "bin", "someone")),
            *(car_place(car) for car in cars),
            *(house_place(garage, kind) for kind in ("supplier", "bench", "repair", "scrap")),
        ]
        self.held: dict[tuple[int, int], int] = {}
        self.undoable: list[Move] = []

    def teardown(self) -> None:
        transaction.set_rollback(True)
        self.transaction.__exit__(None, None, None)

    def shift(self, part: Part, source: int, target: int, quantity: int) -> None:
        self.held[part.pk, source] = self.held.get((part.pk, source), 0) - quantity
        self.held[part.pk, target] = self.held.get((part.pk, target), 0) + quantity

    def end(self, number: int, kinds: frozenset[str]) -> Place:
        """Mostly a place that the verb allows; the last number is any, to be refused."""
        fit = [place for place in self.places if place.kind in kinds]
        return fit[number % len(fit)] if fit and number < 8 else self.places[len(self.held) % 9]

    @rule(
        part=st.integers(0, 3),
        verb=st.sampled_from([*VERBS, "receive", "fit", "pull"]),
        start=PLACES,
        end=PLACES,
        quantity=MOVED,
    )
    def move(self, part, verb, start, end, quantity):
        row = self.parts[part]
        ends = self.end(start, VERBS[verb].sources), self.end(end, VERBS[verb].targets)
        try:
            moved = shelf.carry(row, verb, quantity, *ends, by=self.member, at=NOW)
        except Refused:
            return
        self.shift(row, ends[0].pk, ends[1].pk, quantity)
        self.undoable.append(moved)

    @rule(part=st.integers(0, 3), place=PLACES, found=MOVED)
    def count(self, part, place, found):
        row, where = self.parts[part], self.places[place]
        try:
            moved = stock.count(row, where, found, by=self.member, at=NOW)
        except Refused:
            return
        assert Balance.objects.filter(part=row, place=where).first() or found == 0
        if moved:
            self.shift(row, moved.source_id, moved.target_id, moved.quantity)
            self.undoable.append(moved)

    @rule(which=st.integers(0, 30))
    def undo(self, which):
        if which >= len(self.undoable):
            return
        mistake = self.undoable[-1 - which]
        before = self.snapshot(mistake.part_id)
        try:
            undone = shelf.undo(mistake, by=self.member, at=NOW)
        except Refused:
            return
        for move in (mistake, undone):
            with pytest.raises(Refused):
                shelf.undo(move, by=self.member, at=NOW)
        self.undoable.remove(mistake)
        self.shift(mistake.part, mistake.target_id, mistake.source_id, mistake.quantity)
        after = self.snapshot(mistake.part_id)
        moved = {place: after.get(place, 0) - before.get(place, 0) for place in after | before}
        assert {place: change for place, change in moved.items() if change} == {
            mistake.source_id: mistake.quantity,
            mistake.target_id: -mistake.quantity,
        }

    @rule()
    def written_anew(self):
        rebuild(at=NOW)

    @staticmethod
    def snapshot(part: int) -> dict[int, int]:
        return dict(Balance.objects.filter(part=part).values_list("place_id", "quantity"))

    @invariant()
    def balances_are_the_sums_of_moves(self):
        rows = list(Balance.objects.exclude(quantity=0))
        said = {(row.part_id, row.place_id): row.quantity for row in rows}
        lines = Move.objects.values_list("part_id", "source_id", "target_id", "quantity")
        assert said == fold(LedgerLine(*line) for line in lines)
        assert said == {key: quantity for key, quantity in self.held.items() if quantity}
        assert faults() == []
        self.nothing_is_negative_and_one_of_a_kind_is_in_one_place([row for row in rows if not row.outside])

    def nothing_is_negative_and_one_of_a_kind_is_in_one_place(self, inside):
        assert all(row.quantity > 0 for row in inside)
        for part in self.parts:
            if part.single:
                assert [row.quantity for row in inside if row.part_id == part.pk] in ([], [1])


@pytest.mark.django_db
def test_any_sequence_of_verbs_keeps_the_ledger_whole():
    run_state_machine_as_test(Ledger, settings=tries(60, stateful_step_count=40))
