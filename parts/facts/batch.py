"""As much of the shelf as some rows of a sheet may mean, for their verdicts."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from django.db.models import Q

from garage.models import Garage
from parts.engine.book import by_column, heading_key, part_values, read_row
from parts.engine.book_verdict import KnownPart, KnownPlace, RowVerdict, Seen, Shelf, judge
from parts.models import Balance, Batch, BatchRow, Part, Place

LAST_SHEETS = 20


def verdicts(batch: Batch, rows: Iterable[BatchRow], seen: Seen) -> list[tuple[BatchRow, dict[str, Any], RowVerdict]]:
    """Each row with what it says and what it would do; three queries, however many rows."""
    read = [(line, *read_row(by_column(line.cells, batch.columns))) for line in rows]
    shelf = shelf_for(batch.garage, [values for _, values, _ in read])
    return [(line, values, judge(line.line, values, wrong, shelf, seen)) for line, values, wrong in read]


def headings_said(batch: Batch) -> dict[str, str]:
    """By heading (`heading_key`) which column it was in the last sheets of this garage, empty for none; one query."""
    said: dict[str, str] = {}
    earlier = Batch.objects.in_garage(batch.garage).exclude(pk=batch.pk).exclude(columns={})
    for headings, columns in reversed(earlier.values_list("headings", "columns")[:LAST_SHEETS]):
        slugs = {position: slug for slug, position in columns.items()}
        said |= {heading_key(heading): slugs.get(at, "") for at, heading in enumerate(headings) if heading}
    return said


def shelf_for(garage: Garage, rows: list[dict[str, Any]]) -> Shelf:
    codes = {record["code"] for record in rows if record.get("code")}
    names = {record["name"] for record in rows if record.get("name")}
    parts = list(Part.objects.in_garage(garage).filter(Q(code__in=codes) | Q(name__in=names)))
    held: dict[int, dict[int, int]] = defaultdict(dict)
    balances = Balance.objects.filter(part__in=[part.pk for part in parts], outside=False)
    for part, place, quantity in balances.values_list("part_id", "place_id", "quantity"):
        held[part][place] = quantity
    known = [_known(part, held.get(part.pk, {})) for part in parts]
    by_name: dict[tuple[str, str], tuple[KnownPart, ...]] = {}
    for part in known:
        if not part.gone:
            key = (part.values["number"], part.values["name"])
            by_name[key] = (*by_name.get(key, ()), part)
    return Shelf({part.code: part for part in known}, by_name, _places(garage))


def _known(part: Part, held: dict[int, int]) -> KnownPart:
    return KnownPart(part.pk, part.code, part_values(part), held, part.gone_at is not None)


def _places(garage: Garage) -> dict[str, tuple[KnownPlace, ...]]:
    """By folded name, and by folded code."""
    places: dict[str, tuple[KnownPlace, ...]] = {}
    for place in Place.objects.in_garage(garage).inside():
        known = KnownPlace(place.pk, place.name, place.code, place.kind)
        name = place.name.casefold()
        places[name] = (*places.get(name, ()), known)
        places[place.code.casefold()] = (known,)
    return places
