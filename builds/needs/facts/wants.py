"""How each want of the open jobs stands: on the shelf, promised, ordered, on a car, to find."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from builds.work.facts.work import Work
from builds.work.models.need import Need
from garage.engine.moments import day_words
from garage.models import Entry, Garage
from parts.engine.ledger import STORES
from parts.engine.promises import Pick, Want, picks, share_out
from parts.engine.words import amount_words
from parts.models import Balance, Part, Place

UNUSABLE = (Part.Condition.SCRAP, Part.Condition.REPAIR)
# In the order in which somebody has to do something about it.
STATES = {
    "find": "To find",
    "promised": "Promised to others first",
    "car": "On another car, or elsewhere",
    "ordered": "Ordered",
    "shelf": "On the shelf",
}


@dataclass(frozen=True)
class WantStanding:
    """`state` is one of STATES; `word` says it with where or when, `behind` who is served first.

    `short` is how many no shelf has for it.
    """

    state: str
    word: str
    behind: str = ""
    short: int = 0
    picks: tuple[Pick, ...] = ()


@dataclass(frozen=True)
class Wants:
    """`needs` are open, the most urgent first; `places` those that are named in picks."""

    needs: tuple[Need, ...]
    standing: dict[int, WantStanding]
    places: dict[int, Place]


def wants_of(work: Work) -> Wants:
    """Three queries, however much is wanted."""
    garage = work.times.garage
    due: dict[int, datetime] = {}
    for entry in Entry.objects.in_garage(garage).upcoming(work.at).select_related("event"):
        leaves = entry.event.due_at
        if leaves > work.at:
            due[entry.vehicle_id] = min(leaves, due.get(entry.vehicle_id, leaves))
    return load_wants(garage, work, due, work.times.shop.today)


def load_wants(garage: Garage, work: Work, due: Mapping[int, datetime], today: date) -> Wants:
    """Two queries. A want is as urgent as its job; `due` is by car that is entered."""
    ranks = {pk: found.rank for pk, found in work.urgency.items()}
    rows = Need.objects.in_garage(garage).open().with_ends()
    needs = {need.pk: need for need in rows if need.job_id in work.jobs}
    stock: dict[int, list[Balance]] = defaultdict(list)
    parts = {need.part_id for need in needs.values() if need.part_id}
    held = Balance.objects.filter(part__in=parts, outside=False, quantity__gt=0)
    for row in held.select_related("place").order_by("place__walk_order", "place__name"):
        stock[row.part_id].append(row)
    asked = {pk: _want(need, ranks, due) for pk, need in needs.items()}
    shelf = {
        part: [(row.place_id, row.quantity) for row in rows if row.place.kind in STORES] for part, rows in stock.items()
    }
    wants = [want for pk, want in asked.items() if needs[pk].part and needs[pk].part.condition not in UNUSABLE]
    there = {part: sum(quantity for _, quantity in rows) for part, rows in shelf.items()}
    shares, taken = share_out(there, wants), picks(shelf, wants)
    found = {}
    for pk, need in needs.items():
        share = shares.get(pk)
        found[pk] = _standing(
            need,
            short=share.short if share else need.quantity,
            before=[needs[other] for other in share.behind] if share else [],
            stock=stock.get(need.part_id, ()),
            taken=taken.get(pk, ()),
            today=today,
        )
    order = sorted(needs.values(), key=lambda need: asked[need.pk].turn)
    return Wants(tuple(order), found, {row.place_id: row.place for rows in stock.values() for row in rows})


def _want(need: Need, ranks: Mapping[int, str], due: Mapping[int, datetime]) -> Want:
    return Want(
        need.pk,
        need.part_id or 0,
        need.quantity,
        ranks.get(need.job_id, need.job.rank),
        due.get(need.job.vehicle_id),
        need.asked_at,
    )


def expected_words(need: Need, today: date) -> str:
    """`expected Thu 4 Mar`, `was expected Mon 1 Mar`, or nothing without a day."""
    day = need.expected_on
    if day is None:
        return ""
    return f"{'was expected' if day < today else 'expected'} {day_words(day)}"


def _standing(
    need: Need,
    *,
    short: int,
    before: list[Need],
    stock: Iterable[Balance],
    taken: tuple[Pick, ...],
    today: date,
) -> WantStanding:
    places = {row.place_id: row.place for row in stock}
    behind = f"Behind {before[0].job} ({before[0].job.vehicle})" if before else ""
    if len(before) > 1:
        behind += f" and {len(before) - 1} more"
    if short == 0:
        names = ", ".join(str(places[pick.place]) for pick in taken)
        return WantStanding("shelf", f"on the shelf: {names}", picks=taken)
    if taken:
        there = sum(pick.quantity for pick in taken)
        behind = f"{amount_words(need.part.unit, there)} of {need.quantity} on the shelf" + (
            f". {behind}" if behind else ""
        )
    state, word = _missing(need, bool(before), places.values(), today)
    return WantStanding(state, word, behind, short, taken)


def _missing(need: Need, others_first: bool, places: Iterable[Place], today: date) -> tuple[str, str]:
    if need.expected_on:
        return "ordered", expected_words(need, today)
    if others_first:
        return "promised", "promised to others first"
    elsewhere = [place for place in places if place.kind not in STORES and place.kind != Place.Kind.SCRAP]
    for place in elsewhere:
        if place.kind == Place.Kind.CAR and place.vehicle_id != need.job.vehicle_id:
            return "car", f"on {place}"
    for place in elsewhere:
        if place.kind == Place.Kind.SOMEONE:
            return "car", f"with {place}"
        if place.kind != Place.Kind.CAR:
            return "car", str(place)
    if need.part and need.part.condition in UNUSABLE and list(places):
        return "car", f"there, but {need.part.get_condition_display()}"
    return "find", "to find"
