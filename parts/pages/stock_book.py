"""The shelf as the rows of its stock book, one a part and place."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from garage.models import Membership
from parts.engine.book import COLUMNS, KINDS, part_values
from parts.models import Balance, Part, Place

Cell = str | int | None
KIND_WORDS = {flags: word for word, flags in KINDS.items()}


def book_columns(member: Membership) -> list[str]:
    """What a part cost is for the owner alone."""
    return [slug for slug in COLUMNS if slug != "cost" or member.role == "owner"]


def book_rows(member: Membership) -> Iterator[list[Cell]]:
    """Three queries. Text, whole numbers and None; a part that is nowhere has one row of zero."""
    columns = book_columns(member)
    names = _place_names(member)
    held: dict[int, list[tuple[int, int]]] = defaultdict(list)
    rows = Balance.objects.held().filter(part__garage=member.garage_id, part__gone_at=None)
    order = rows.order_by("place__walk_order", "place__name", "place_id")
    for part, place, quantity in order.values_list("part_id", "place_id", "quantity"):
        held[part].append((place, quantity))
    for part in Part.objects.visible_to(member).kept().order_by("name", "pk").iterator():
        own = part_cells(part)
        for place, quantity in held.get(part.pk, [(0, 0)]):
            row = {**own, "quantity": quantity, "place": names.get(place, "")}
            yield [row[slug] for slug in columns]


def part_cells(part: Part) -> dict[str, Cell]:
    """Of the part itself, by column slug; what is where is not in it."""
    cost = part.cost_minor
    return {
        **part_values(part),
        "code": part.code,
        "kind": KIND_WORDS.get((part.single, part.one_use), "one of a kind"),
        "systems": "; ".join(part.systems),
        "cost": None if cost is None else f"{cost // 100}.{cost % 100:02d}",
    }


def _place_names(member: Membership) -> dict[int, str]:
    """A place by its name, or by its code when another is called the same."""
    places = list(Place.objects.visible_to(member).inside())
    many = Counter(place.name.casefold() for place in places)
    return {place.pk: place.name if many[place.name.casefold()] == 1 else place.code for place in places}
