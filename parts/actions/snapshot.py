"""The balances proved against the moves, and written anew from them."""

from collections.abc import Iterator
from datetime import datetime

from django.db import DEFAULT_DB_ALIAS, transaction

from garage import writes
from garage.actions.refused import Refused
from garage.engine.backup.manifest import LedgerProof, balances_digest
from garage.models import Garage
from parts.engine.ledger import LedgerLine, fold
from parts.models import Balance, Move, Part, Place

Key = tuple[int, int]


def _lines(using: str = DEFAULT_DB_ALIAS) -> Iterator[LedgerLine]:
    rows = Move.objects.using(using).order_by("pk").values_list("part_id", "source_id", "target_id", "quantity")
    return (LedgerLine(*line) for line in rows.iterator(chunk_size=5000))


def faults(using: str = DEFAULT_DB_ALIAS) -> list[tuple[Part, Place, int, int]]:
    """Where the snapshot is not the sum of the moves: part, place, what it says, what is true."""
    true = fold(_lines(using))
    rows = Balance.objects.using(using).exclude(quantity=0).values_list("part_id", "place_id", "quantity")
    said = {(part, place): quantity for part, place, quantity in rows}
    wrong: list[Key] = sorted(key for key in true.keys() | said.keys() if true.get(key, 0) != said.get(key, 0))
    parts = Part.objects.using(using).in_bulk({part for part, _ in wrong})
    places = Place.objects.using(using).in_bulk({place for _, place in wrong})
    return [
        (parts[part], places[place], said.get((part, place), 0), true.get((part, place), 0)) for part, place in wrong
    ]


def proof(using: str) -> LedgerProof:
    """Of one database, what a backup says of its ledger."""
    wrong = tuple(
        f"{part} at {place}: the balance says {said}, the moves {true}" for part, place, said, true in faults(using)
    )
    return LedgerProof(Move.objects.using(using).count(), balances_digest(fold(_lines(using))), wrong)


@transaction.atomic
def rebuild(*, at: datetime) -> int:
    """Write every balance anew from the moves; says how many there are now.

    `Refused` when the moves themselves take more out of a place than ever came in.
    """
    # Whoever moves a part holds its row: with all of them held, nobody moves meanwhile.
    list(Part.objects.select_for_update().order_by("pk").values_list("pk", flat=True))
    outside = set(Place.objects.outside().values_list("pk", flat=True))
    sums = fold(_lines())
    for (part, place), quantity in sums.items():
        if quantity < 0 and place not in outside:
            raise Refused(
                f"The moves of {Part.objects.get(pk=part)} leave {quantity} at"
                f" {Place.objects.get(pk=place)}: the ledger was changed from outside."
                " Bring back a backup; nothing was written."
            )
    Balance.objects.all().delete()
    rows = [
        Balance(part_id=part, place_id=place, quantity=quantity, outside=place in outside)
        for (part, place), quantity in sums.items()
    ]
    Balance.objects.bulk_create(rows, batch_size=2000)
    for garage in Garage.objects.order_by("pk").values_list("pk", flat=True):
        writes.count(garage, at=at)  # what is remembered rests on balances
    return len(rows)
