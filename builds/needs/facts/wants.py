"""How each want of the open jobs stands: on the shelf, promised, ordered, on a car, to find."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.work.engine.open_work import Work
from builds.work.models.need import Need
from garage.facts.entries import entries_ahead
from garage.models import Entry, Garage
from garage.remembered import remembered
from parts.engine.ledger import STORES
from parts.engine.promises import Pick, Want, picks, share_out
from parts.models import Balance, Part, Place

UNUSABLE = (Part.Condition.SCRAP, Part.Condition.REPAIR)


@dataclass(frozen=True)
class WantStanding:
    """`state` is find, promised, car, ordered or shelf.

    `place` is where it is when it is on another car or elsewhere, `shelves` where it is picked;
    `before` are the needs that are served first; `short` is how many no shelf has for it.
    """

    state: str
    place: Place | None = None
    shelves: tuple[Place, ...] = ()
    before: tuple[Need, ...] = ()
    short: int = 0
    picks: tuple[Pick, ...] = ()


@dataclass(frozen=True)
class Wants:
    """`needs` are open, the most urgent first; `places` those that are named in picks."""

    needs: tuple[Need, ...]
    standing: dict[int, WantStanding]
    places: dict[int, Place]

    @property
    def waiting(self) -> frozenset[int]:
        """Jobs (pk) with a want that no shelf has whole."""
        return frozenset(need.job_id for need in self.needs if self.standing[need.pk].state != "shelf")


def wants_of(work: Work, entries: Iterable[Entry] | None = None) -> Wants:
    """Three queries, however much is wanted; one less where the `entries` to come are at hand."""
    garage = work.garage
    due: dict[int, datetime] = {}
    if entries is None:
        entries = entries_ahead(garage, work.at)
    for entry in entries:
        leaves = entry.event.due_at
        if leaves > work.at:
            due[entry.vehicle_id] = min(leaves, due.get(entry.vehicle_id, leaves))
    return load_wants(garage, work, due)


def load_wants(garage: Garage, work: Work, due: Mapping[int, datetime]) -> Wants:
    """Two queries at most. A want is as urgent as its job; `due` is by car that is entered."""
    ranks = {pk: urgency.rank for pk, urgency in work.urgency.items()}
    rows, stock = remembered(garage, "wanted", lambda: _wanted(garage))
    needs = {need.pk: need for need in rows if need.job_id in work.jobs}
    asked = {pk: _want(need, ranks, due) for pk, need in needs.items()}
    shelf = {
        part: [(held.place_id, held.quantity) for held in balances if held.place.kind in STORES]
        for part, balances in stock.items()
    }
    wants = [want for pk, want in asked.items() if needs[pk].part and needs[pk].part.condition not in UNUSABLE]
    there = {part: sum(quantity for _, quantity in rows) for part, rows in shelf.items()}
    shares, taken = share_out(there, wants), picks(shelf, wants)
    places = {held.place_id: held.place for balances in stock.values() for held in balances}
    standing = {}
    for pk, need in needs.items():
        share, picked = shares.get(pk), taken.get(pk, ())
        short = share.short if share else need.quantity
        before = tuple(needs[other] for other in share.behind) if share else ()
        state, place = ("shelf", None)
        if short:
            state, place = _missing(need, bool(before), [held.place for held in stock.get(need.part_id, ())])
        shelves = tuple(places[pick.place] for pick in picked)
        standing[pk] = WantStanding(state, place, shelves, before, short, picked)
    order = sorted(needs.values(), key=lambda need: asked[need.pk].turn)
    return Wants(tuple(order), standing, places)


def _wanted(garage: Garage) -> tuple[list[Need], dict[int, list[Balance]]]:
    """What open jobs need, and what is held of it."""
    needs = list(Need.objects.in_garage(garage).open().with_ends())
    return needs, dict(Balance.objects.by_part({need.part_id for need in needs if need.part_id}))


def _want(need: Need, ranks: Mapping[int, str], due: Mapping[int, datetime]) -> Want:
    return Want(
        need.pk,
        need.part_id or 0,
        need.quantity,
        ranks.get(need.job_id, need.job.rank),
        due.get(need.job.vehicle_id),
        need.asked_at,
    )


def _missing(need: Need, others_first: bool, places: list[Place]) -> tuple[str, Place | None]:
    """What has to be done about it, and where it is instead of on a shelf, if it is anywhere."""
    if need.expected_on:
        return "ordered", None
    if others_first:
        return "promised", None
    elsewhere = [place for place in places if place.kind not in STORES and place.kind != Place.Kind.SCRAP]
    for place in elsewhere:
        if place.kind == Place.Kind.CAR and place.vehicle_id != need.job.vehicle_id:
            return "car", place
    for place in elsewhere:
        if place.kind != Place.Kind.CAR:
            return "car", place
    if need.part and need.part.condition in UNUSABLE and places:
        return "car", None
    return "find", None
