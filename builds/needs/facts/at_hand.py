"""What a job needs that is at hand: pulled for it, or on the shelf and promised to it."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.needs.facts.wants import UNUSABLE, WantStanding, wants_of
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import PartUse
from parts.models import Balance, Part, Place


@dataclass(frozen=True)
class AtHand:
    """So many (`quantity`) of a need's part from each place, in all as many as are still to go on."""

    need: Need
    part: Part
    places: tuple[tuple[Place, int], ...]

    @property
    def quantity(self) -> int:
        return sum(quantity for _, quantity in self.places)


def at_hand(job: Job, at: datetime) -> list[AtHand]:
    """The needs that can be met whole; no query for a job that needs no part of the shelf."""
    needs = [need for need in Need.objects.of(job).with_ends().order_by("pk") if need.part]
    if not needs:
        return []
    benches = _on_benches(job)
    standing = wants_of(load_work(job.vehicle.garage, at)) if any(need.got_at is None for need in needs) else None
    met = []
    for need in needs:
        if need.part is None or need.part.condition in UNUSABLE:
            continue
        bench = benches[need.part_id]
        left = need.quantity - bench.take_fitted(need.quantity)
        stands = standing.standing.get(need.pk) if standing else None
        places = [*bench.take(left), *_picked(stands, standing.places if standing else {})]
        ready = AtHand(need, need.part, tuple(places))
        if left and ready.quantity == left:
            met.append(ready)
    return met


def _picked(stands: WantStanding | None, places: dict[int, Place]) -> Iterable[tuple[Place, int]]:
    if stands is None or stands.state != "shelf":
        return []
    return [(places[pick.place], pick.quantity) for pick in stands.picks]


@dataclass
class _Bench:
    """Of one part, what was pulled for the job and lies there, and what went on the car already."""

    place: Place | None = None
    there: int = 0
    fitted: int = 0

    def take_fitted(self, most: int) -> int:
        taken = min(most, self.fitted)
        self.fitted -= taken
        return taken

    def take(self, most: int) -> list[tuple[Place, int]]:
        taken = min(most, self.there)
        self.there -= taken
        return [(self.place, taken)] if self.place and taken else []


def _on_benches(job: Job) -> dict[int | None, _Bench]:
    """By part (pk): two queries."""
    benches: dict[int | None, _Bench] = defaultdict(_Bench)
    uses = PartUse.objects.standing().filter(job=job).select_related("move__target", "move__source")
    for use in uses.order_by("pk"):
        move, bench = use.move, benches[use.move.part_id]
        if move.verb == "pull":
            bench.place, bench.there = move.target, bench.there + move.quantity
        elif move.verb == "fit":
            bench.fitted += move.quantity
            bench.there -= move.quantity if move.source.kind == Place.Kind.BENCH else 0
    held = Balance.objects.filter(part__in=list(benches), place__kind=Place.Kind.BENCH)
    there = dict(held.values_list("part_id", "quantity"))
    for part, bench in benches.items():
        bench.there = max(0, min(bench.there, there.get(part, 0)))
    return benches
