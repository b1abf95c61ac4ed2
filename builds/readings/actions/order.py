"""The order of work on a car, kept as links that come and go with its jobs."""

from typing import NamedTuple

from django.db import transaction

from builds.readings.engine.order_of_work import Pair, order_of_work
from builds.readings.engine.rules_of_order import ON_PAINT
from builds.readings.facts.work_ahead import WorkAhead, work_ahead
from builds.work.engine.cure_unsaid import mostly_cures
from builds.work.models.link import Link
from builds.work.models.states import OPEN_STATES
from garage import clock
from garage.models import Garage, Vehicle


@transaction.atomic
def draw_order(vehicle: Vehicle, ahead: WorkAhead | None = None) -> None:
    """Links between the open jobs of a car as the order of work has them, each with why.

    Called after whatever changes a job, a link or a kept station. Links from finished work stay,
    and tell which work it was. The work `ahead` is given where it was read already, the garage held.
    """
    if ahead is None:
        hold(vehicle)
        ahead = work_ahead(vehicle, clock.now())
    amiss = _amiss(vehicle, ahead)
    if amiss.stale:
        Link.objects.filter(pk__in=amiss.stale).delete()
    Link.objects.bulk_update(amiss.told, ["why", "wait_minutes"])
    Link.objects.bulk_create(amiss.lacking, ignore_conflicts=True)


def hold(vehicle: Vehicle) -> None:
    """Two people who change work at once must neither close a circle between them nor make two of one job."""
    Garage.objects.select_for_update().only("pk").get(pk=vehicle.garage_id)


class Drawn(NamedTuple):
    """What a drawn link says, and how long it has its second job wait."""

    why: str
    wait_minutes: int = 0


MOSTLY = "the paint mostly cures by then, nobody has said how long"


class OrderAmiss(NamedTuple):
    """Links (pk) that stand and should not, those that say or wait otherwise than they should, those that lack."""

    stale: list[int]
    told: list[Link]
    lacking: list[Link]


def _amiss(vehicle: Vehicle, ahead: WorkAhead) -> OrderAmiss:
    wanted = _with_cures(_wanted(ahead), ahead)
    drawn = Link.objects.by_order().standing().filter(after__vehicle=vehicle, after__state__in=OPEN_STATES)
    there = {(link.before_id, link.after_id): link for link in drawn.only("before", "after", "why", "wait_minutes")}
    loose = [link.pk for pair, link in there.items() if pair not in wanted]
    stale = Link.objects.filter(pk__in=loose, before__finished_at=None).values_list("pk", flat=True) if loose else ()
    told = [link for pair, link in there.items() if pair in wanted and (link.why, link.wait_minutes) != wanted[pair]]
    for link in told:
        link.why, link.wait_minutes = wanted[link.before_id, link.after_id]
    lacking = [
        Link(before_id=before, after_id=after, why=said.why, wait_minutes=said.wait_minutes, by_order=True)
        for (before, after), said in wanted.items()
        if (before, after) not in there
    ]
    return OrderAmiss(list(stale), told, lacking)


def _wanted(ahead: WorkAhead) -> dict[Pair, str]:
    """The order of the work at home, and by itself that of each night at an event: neither waits for the other."""
    away = set[int]().union(*ahead.nights)
    wanted = order_of_work(
        ahead.home, ahead.links, [strip for strip in ahead.strips if strip[1] not in away], ahead.cut
    )
    for jobs in ahead.nights:
        kept = [strip for strip in ahead.strips if strip[1] in jobs]
        wanted |= order_of_work(jobs, [*ahead.links, *wanted], kept, ahead.cut)
    return wanted


def _with_cures(wanted: dict[Pair, str], ahead: WorkAhead) -> dict[Pair, Drawn]:
    """At home what goes on paint waits as long as such paint mostly cures, where nobody has said how long."""
    drawn, jobs = {pair: Drawn(why) for pair, why in wanted.items()}, ahead.home
    wet = [pair for pair, why in wanted.items() if why in ON_PAINT and pair[0] in jobs]
    for pair in _unsaid(wet) if wet else ():
        if mostly := mostly_cures(jobs[pair[0]].kinds):
            drawn[pair] = Drawn(MOSTLY, int(mostly.total_seconds()) // 60)
    return drawn


def _unsaid(wet: list[Pair]) -> list[Pair]:
    """Those of whose paint no wait that somebody wrote down says how long it cures; one query."""
    waits = Link.objects.by_hand().filter(before__in={paint for paint, _ in wet}).exclude(wait_minutes=0, cure="")
    said = set(waits.values_list("before_id", flat=True))
    return [pair for pair in wet if pair[0] not in said]


def draw_orders(garage: Garage) -> None:
    """The order of work of every car: some work counts again, or no more, by the clock or an event alone.

    Mostly nothing does, and then nobody who writes is kept waiting: it is looked at first, without a lock. Whoever
    writes meanwhile draws the order himself.
    """
    for vehicle in Vehicle.objects.in_garage(garage).kept():
        if any(_amiss(vehicle, work_ahead(vehicle, clock.now()))):
            draw_order(vehicle)
