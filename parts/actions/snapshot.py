"""The balances proved against the moves, and written anew from them."""

from collections.abc import Iterator

from django.db import transaction

from parts.engine.ledger import Line, fold
from parts.models import Balance, Move, Part, Place

Key = tuple[int, int]


def _lines() -> Iterator[Line]:
    rows = Move.objects.order_by("pk").values_list("part_id", "source_id", "target_id", "quantity")
    return (Line(*row) for row in rows.iterator(chunk_size=5000))


def faults() -> list[tuple[Part, Place, int, int]]:
    """Where the snapshot is not the sum of the moves: part, place, what it says, what is true."""
    true = fold(_lines())
    rows = Balance.objects.exclude(quantity=0).values_list("part_id", "place_id", "quantity")
    said = {(part, place): quantity for part, place, quantity in rows}
    wrong: list[Key] = sorted(
        key for key in true.keys() | said.keys() if true.get(key, 0) != said.get(key, 0)
    )
    parts = Part.objects.in_bulk({part for part, _ in wrong})
    places = Place.objects.in_bulk({place for _, place in wrong})
    return [
        (parts[part], places[place], said.get((part, place), 0), true.get((part, place), 0))
        for part, place in wrong
    ]


@transaction.atomic
def rebuild() -> int:
    """Write every balance anew from the moves; says how many there are now."""
    # Whoever moves a part holds its row: with all of them held, nobody moves meanwhile.
    list(Part.objects.select_for_update().order_by("pk").values_list("pk", flat=True))
    outside = set(Place.objects.outside().values_list("pk", flat=True))
    Balance.objects.all().delete()
    rows = [
        Balance(part_id=part, place_id=place, quantity=quantity, outside=place in outside)
        for (part, place), quantity in fold(_lines()).items()
    ]
    Balance.objects.bulk_create(rows, batch_size=2000)
    return len(rows)
