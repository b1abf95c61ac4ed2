"""A checked sheet written to the shelf: parts, places, moves and balances, all or nothing."""

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db import transaction

from garage import writes
from parts.actions.places import house_place, new_code
from parts.engine.book_verdict import KnownPlace, RowVerdict, Seen
from parts.facts.batch import verdicts
from parts.models import Balance, Batch, BatchRow, Move, Part, Place

SLICE, AT_ONCE = 1000, 500
FIELDS = {
    "name": "name",
    "number": "number",
    "unit": "unit",
    "condition": "condition",
    "cost": "cost_minor",
    "supplier": "supplier",
    "provenance": "provenance",
    "low level": "low_level",
    "note": "note",
}
CHANGED = [*FIELDS.values(), "single", "one_use", "systems", "condition_at", "condition_by"]


class ShelfChanged(Exception):
    """A row would not do any more what it was said to do."""


@dataclass
class Pass:
    """One writing: the parts and places made so far, and what is to move."""

    batch: Batch
    at: datetime
    made: dict[str, Part] = field(default_factory=dict)
    changed: dict[int, Part] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    moves: list[Move] = field(default_factory=list)


@transaction.atomic
def write(batch: Batch, *, at: datetime) -> None:
    """All rows or none. Raises ShelfChanged when a verdict is not what it was any more."""
    held = Batch.objects.select_for_update().filter(pk=batch.pk, turn=batch.turn, state=Batch.State.WRITING)
    if not held:
        return  # stopped, or begun anew by somebody else
    # Whoever moves a part holds its row: with all of them held, nobody moves meanwhile.
    parts = Part.objects.in_garage(batch.garage).select_for_update()
    list(parts.order_by("pk").values_list("pk", flat=True))
    judged = _judged(batch)
    done = Pass(batch, at)
    _parts(done, judged)
    _places(done, judged)
    _moves(done, judged)
    BatchRow.objects.of(batch).delete()
    batch.state, batch.done, batch.seen_at = Batch.State.DONE, batch.total, at
    batch.save(update_fields=["state", "done", "seen_at"])
    writes.count(batch.garage_id, at=at)


Judged = list[tuple[dict[str, Any], RowVerdict]]


def _judged(batch: Batch) -> Judged:
    """Every row that does something, judged once more, now that the shelf holds still."""
    seen, judged, done = Seen(), [], 0
    while rows := list(BatchRow.objects.of(batch)[done : done + SLICE]):
        done += len(rows)
        for line, said, verdict in verdicts(batch, rows, seen):
            if verdict.kind != line.kind or list(verdict.changes) != line.changes:
                raise ShelfChanged
            if verdict.kind != "same":
                judged.append((said, verdict))
    return judged


def _fields(said: dict[str, Any]) -> dict[str, Any]:
    fields = {FIELDS[slug]: value for slug, value in said.items() if slug in FIELDS}
    if "kind" in said:
        fields["single"], fields["one_use"] = said["kind"]
    if "systems" in said:
        fields["systems"] = list(said["systems"])
    return fields


def _parts(done: Pass, judged: Judged) -> None:
    garage = done.batch.garage
    changing = [verdict.part.pk for _, verdict in judged if verdict.part and verdict.changes]
    there = {part.pk: part for part in Part.objects.in_garage(garage).filter(pk__in=changing)}
    for said, verdict in judged:
        if verdict.part is None and verdict.group not in done.made:
            done.made[verdict.group] = Part(
                garage=garage, code=said.get("code") or new_code(), made_at=done.at, **_fields(said)
            )
        elif verdict.part and set(verdict.changes) - {"quantity"}:
            part = done.changed[verdict.part.pk] = there[verdict.part.pk]
            for name, value in _fields(said).items():
                if name == "condition" and value != part.condition:
                    part.condition_at, part.condition_by = done.at, done.batch.by
                setattr(part, name, value)
    Part.objects.bulk_create(done.made.values(), batch_size=AT_ONCE)
    Part.objects.bulk_create(
        done.changed.values(),
        batch_size=AT_ONCE,
        update_conflicts=True,
        unique_fields=["id"],
        update_fields=CHANGED,
    )


def _places(done: Pass, judged: Judged) -> None:
    wanted = {verdict.place.name.casefold(): verdict.place for _, verdict in judged if _new(verdict.place)}
    for key, place in wanted.items():
        done.places[key] = Place(garage=done.batch.garage, code=new_code(), name=place.name)
    Place.objects.bulk_create(done.places.values())


def _new(place: KnownPlace | None) -> bool:
    return place is not None and not place.pk


def _moves(done: Pass, judged: Judged) -> None:
    """What is new comes from the supplier; what the shelf held otherwise is a stock-take."""
    supplier = house_place(done.batch.garage, Place.Kind.SUPPLIER)
    books = house_place(done.batch.garage, Place.Kind.COUNTED)
    why = f"from {done.batch.file_name}"
    change: dict[tuple[int, int], int] = defaultdict(int)
    for _, verdict in judged:
        if not verdict.short or verdict.place is None:
            continue
        part = verdict.part.pk if verdict.part else done.made[verdict.group].pk
        place = verdict.place.pk or done.places[verdict.place.name.casefold()].pk
        outside = books if verdict.part else supplier
        ends = (outside.pk, place) if verdict.short > 0 else (place, outside.pk)
        quantity = abs(verdict.short)
        done.moves.append(
            Move(
                part_id=part,
                verb="count" if verdict.part else "receive",
                quantity=quantity,
                source_id=ends[0],
                target_id=ends[1],
                by=done.batch.by,
                at=done.at,
                why=why,
            )
        )
        change[part, ends[0]] -= quantity
        change[part, ends[1]] += quantity
    Move.objects.bulk_create(done.moves, batch_size=AT_ONCE)
    _balances(change, {supplier.pk, books.pk})


def _balances(change: dict[tuple[int, int], int], outside: set[int]) -> None:
    parts = sorted({part for part, _ in change})
    held: dict[tuple[int, int], int] = {}
    for start in range(0, len(parts), SLICE):
        rows = Balance.objects.filter(part__in=parts[start : start + SLICE])
        for part, place, quantity in rows.values_list("part_id", "place_id", "quantity"):
            held[part, place] = quantity
    Balance.objects.bulk_create(
        (
            Balance(
                part_id=part,
                place_id=place,
                outside=place in outside,
                quantity=held.get((part, place), 0) + quantity,
            )
            for (part, place), quantity in change.items()
        ),
        batch_size=AT_ONCE,
        update_conflicts=True,
        unique_fields=["part", "place"],
        update_fields=["quantity"],
    )
