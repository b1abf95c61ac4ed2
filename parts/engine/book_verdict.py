"""What a row of a stock book would do to the shelf: new, changes what, same, or bad and why."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from parts.engine.book import BookFault
from parts.engine.ledger import AT_HAND

OWN = (
    "kind",
    "unit",
    "condition",
    "systems",
    "cost",
    "supplier",
    "provenance",
    "low level",
    "note",
)


@dataclass(frozen=True, slots=True)
class KnownPlace:
    """`pk` is 0 for a shelf that is yet to be made."""

    pk: int
    name: str
    code: str = ""
    kind: str = "shelf"


@dataclass(frozen=True, slots=True)
class KnownPart:
    """A part that there is: `values` by column slug, `held` by place pk, nought included."""

    pk: int
    code: str
    values: Mapping[str, Any]
    held: Mapping[int, int]
    gone: bool = False


@dataclass(frozen=True, slots=True)
class Shelf:
    """As much of the shelf as the rows at hand may mean; names of places are folded."""

    by_code: Mapping[str, KnownPart]
    by_name: Mapping[tuple[str, str], tuple[KnownPart, ...]]
    places: Mapping[str, tuple[KnownPlace, ...]]


@dataclass(frozen=True, slots=True)
class RowVerdict:
    """`group` is the same for rows of one part; `short` is what a count would write down."""

    kind: str
    group: str = ""
    problems: tuple[BookFault, ...] = ()
    changes: tuple[str, ...] = ()
    part: KnownPart | None = None
    place: KnownPlace | None = None
    short: int = 0


@dataclass(slots=True)
class Seen:
    """What the rows before said: rows of one part must agree, and name each place once."""

    first: dict[str, tuple[int, Mapping[str, Any]]] = field(default_factory=dict)
    places: dict[tuple[str, str], int] = field(default_factory=dict)
    amounts: dict[str, int] = field(default_factory=dict)

    def hear(self, line: int, row: Mapping[str, Any], group: str, spot: str) -> list[BookFault]:
        """What is wrong with one more row; the first row of a part counts.

        Those after it may differ in place (`spot`, folded) and quantity alone.
        """
        if before := self.places.get((group, spot)):
            return [BookFault("name", f"Row {before} has the same part in the same place.")]
        problems = []
        first, said = self.first.get(group, (line, row))
        for slug in ("name", "number", *OWN):
            if row.get(slug) != said.get(slug):
                problems.append(BookFault(slug, f"Row {first} says otherwise of the same part."))
        total = self.amounts.get(group, 0) + (row.get("quantity") or 0)
        if row.get("kind", (False,))[0] and total > 1 and not problems:
            problems.append(BookFault("quantity", "It is one of a kind: there cannot be two."))
        if not problems:
            self.places[group, spot], self.amounts[group] = line, total
            self.first.setdefault(group, (line, row))
        return problems


def judge(line: int, row: Mapping[str, Any], wrong: tuple[BookFault, ...], shelf: Shelf, seen: Seen) -> RowVerdict:
    """The verdict on one row, as `read_row` gave it; `seen` hears of it for the rows after it.

    A row is of the part that has its code; without a code, of the part that has its number and
    name and was ever in its place. A code that nobody has makes a new part that keeps it.
    """
    problems = list(wrong)
    place = _place(row, shelf, problems)
    part = _part(row, place, shelf, problems)
    group = _group(row, part, place)
    quantity = row.get("quantity")
    if not row.get("name") and (part is None or "name" in row) and not _has(problems, "name"):
        problems.append(BookFault("name", "Every part needs a name."))
    if quantity and not place and not _has(problems, "place"):
        problems.append(BookFault("place", "Where does it lie?"))
    if place and quantity is None and part is None and not _has(problems, "quantity"):
        problems.append(BookFault("quantity", "How many are there? Write 0 for none."))
    held = part.held.get(place.pk, 0) if part and place else 0
    short = quantity - held if quantity is not None and place else 0
    if short and place and place.kind not in AT_HAND:
        problems.append(BookFault("place", f"A sheet fills shelves, bins and vans: move it to {place.name} by hand."))
    changed = _changes(row, part)
    _kind(row, part, problems)
    _only_one(row, part, place, problems)
    if not problems:
        problems += seen.hear(line, row, group, place.name.casefold() if place else "")
    if problems:
        return RowVerdict("bad", group, tuple(problems), (), part, place)
    if part is None:
        return RowVerdict("new", group, (), (), None, place, short)
    said = (*changed, *(("quantity",) if short else ()))
    return RowVerdict("changes" if said else "same", group, (), said, part, place, short)


def _has(problems: list[BookFault], column: str) -> bool:
    return any(problem.column == column for problem in problems)


def _place(row: Mapping[str, Any], shelf: Shelf, problems: list[BookFault]) -> KnownPlace | None:
    name = row.get("place") or ""
    if not name:
        return None
    places = shelf.places.get(name.casefold(), ())
    exact = tuple(place for place in places if place.name == name)
    places = exact if len(exact) == 1 else places
    if len(places) > 1:
        codes = " or ".join(place.code for place in places)
        problems.append(BookFault("place", f"{len(places)} places are called so: write {codes}."))
        return None
    return places[0] if places else KnownPlace(0, name)


def _part(
    row: Mapping[str, Any], place: KnownPlace | None, shelf: Shelf, problems: list[BookFault]
) -> KnownPart | None:
    code = row.get("code")
    if code:
        if code.casefold() in shelf.places:
            problems.append(BookFault("code", f"{code} is the code of a place."))
        part = shelf.by_code.get(code)
        if part and part.gone:
            problems.append(BookFault("code", "That part is gone from the shelf."))
        return part
    named = shelf.by_name.get((row.get("number") or "", row.get("name") or ""), ())
    there = tuple(part for part in named if place and place.pk in part.held)
    never = tuple(part for part in named if not part.held)
    parts = there or never or (() if place else named)
    if len(parts) > 1:
        problems.append(BookFault("code", f"{len(parts)} parts are called so: write its code."))
    return parts[0] if len(parts) == 1 else None


def _group(row: Mapping[str, Any], part: KnownPart | None, place: KnownPlace | None) -> str:
    if part:
        return f"part {part.pk}"
    if row.get("code"):
        return f"code {row['code']}"
    spot = place.name.casefold() if place else ""
    return "\n".join(("new", row.get("number") or "", row.get("name") or "", spot))


def _changes(row: Mapping[str, Any], part: KnownPart | None) -> tuple[str, ...]:
    if part is None:
        return ()
    columns = (slug for slug in ("name", "number", *OWN) if slug in row)
    return tuple(slug for slug in columns if row[slug] != part.values[slug])


def _kind(row: Mapping[str, Any], part: KnownPart | None, problems: list[BookFault]) -> None:
    values = part.values if part else {}
    kind = row.get("kind", values.get("kind", (False, False)))
    unit = row.get("unit", values.get("unit", "piece"))
    if kind[0] and unit != "piece":
        problems.append(BookFault("unit", "One of a kind is counted in pieces."))
    if part and part.held and unit != values["unit"]:
        problems.append(BookFault("unit", "It was moved already: its unit stays."))


def _only_one(
    row: Mapping[str, Any],
    part: KnownPart | None,
    place: KnownPlace | None,
    problems: list[BookFault],
) -> None:
    single = row.get("kind", part.values["kind"] if part else (False, False))[0]
    if not single:
        return
    held = dict(part.held) if part else {}
    if place and row.get("quantity") is not None:
        held[place.pk] = row["quantity"]
    if sum(held.values()) > 1 and not _has(problems, "quantity"):
        problems.append(BookFault("quantity", "It is one of a kind: there cannot be two."))
