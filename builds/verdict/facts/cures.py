"""What the verdict is told of what cures still, car by car, and of what was signed for a day to come."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef, Prefetch, Q

from builds.cure.facts.shop import shop_of
from builds.verdict.engine import AheadFact, CureFact
from builds.work.engine.blocks import NOT_IN_SIGHT
from builds.work.engine.cure_times import CureTimes
from builds.work.engine.cure_unsaid import CURES, mostly_cures, on_joints
from builds.work.facts.waits import wait_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, names_any
from builds.work.models.link import Link
from builds.work.models.states import State
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Entry, Garage, Vehicle

# No cure takes longer.
LOOKED_BACK = timedelta(days=60)
OVER = [State.HELD, State.DONE, State.SIGNED]


def cure_facts(garage: Garage, cars: list[Vehicle], at: datetime) -> dict[int, list[CureFact]]:
    """Of each car (pk) what cures at that moment; two queries, and those of the shop where a time is computed."""
    behind = Prefetch("links_after", Link.objects.filter(cut_at=None).select_related("after"))
    rows = (
        Job.objects.filter(vehicle__in=cars, state__in=OVER, finished_at__gte=at - LOOKED_BACK)
        .with_texts()
        .filter(names_any("kinds", sorted(CURES)) | Exists(Link.objects.filter(before=OuterRef("pk")).exclude(cure="")))
        .order_by("finished_at", "pk")
    )
    by_car, times = defaultdict[int, list[CureFact]](list), CureTimes(shop_of(garage, at))
    for job in rows.prefetch_related(behind):
        by_car[job.vehicle_id] += _cures(job, at, times)
    return by_car


def _cures(job: Job, at: datetime, times: CureTimes) -> Iterator[CureFact]:
    """By the waits that somebody wrote down behind it; where there are none, by what such work mostly takes."""
    links = list(job.links_after.all())
    touched = {*job.systems, *(system for link in links for system in link.after.systems)}
    loaded = on_joints(job.kinds) or not SAFETY_SYSTEMS.isdisjoint(touched)
    said = [link for link in links if not link.by_order]
    waits = [wait for wait in map(wait_of, said) if wait.cure or (wait.wait and not CURES.isdisjoint(job.kinds))]
    moments = [moment for wait in waits if (moment := times.ready_at(wait, job))]
    mostly = mostly_cures(job.kinds)
    unsaid = not moments and mostly is not None
    if unsaid and mostly and job.finished_at:
        moments = [job.finished_at + mostly]
    if moments and max(moments) > at:
        until = max(moments)
        local = None if until == NOT_IN_SIGHT else until.astimezone(times.shop.zone)
        yield CureFact(job.pk, job.title, local, unsaid, loaded=loaded)


def by_then(cures: tuple[CureFact, ...], entry: Entry | None) -> tuple[CureFact, ...]:
    """With which of them are over when the event's gates open."""
    if entry is None:
        return cures
    return tuple(replace(cure, by_then=cure.until is not None and cure.until <= entry.event.gates_at) for cure in cures)


def ahead_facts(cars: list[Vehicle], at: datetime) -> Mapping[int, list[AheadFact]]:
    """Of each car (pk) the jobs that were signed, or of which a point was, later than it is now; one query."""
    point = Exists(HoldPoint.objects.filter(job=OuterRef("pk"), signed_at__gt=at))
    by_car: dict[int, list[AheadFact]] = defaultdict(list)
    signed = Job.objects.filter(Q(signed_at__gt=at) | point, vehicle__in=cars).exclude(state=State.DROPPED)
    for car, job, title in signed.order_by("pk").values_list("vehicle_id", "pk", "title"):
        by_car[car].append(AheadFact(job, title))
    return by_car
