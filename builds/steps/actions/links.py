"""Links between jobs, and the stations that stripped cars keep."""

from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.readings.actions.order import draw_order
from builds.readings.engine.order_of_work import Order
from builds.work.engine.urgency import cycle_sentence, find_cycle
from builds.work.facts.waits import following
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.states import OPEN_STATES
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.engine.reasons import SAY_WHY, says_why
from garage.models import Garage, Membership, Station, Vehicle


def _refuse_cycle(before: Job, after: Job) -> None:
    rows = Link.objects.in_garage(before.vehicle.garage_id).by_hand()
    pairs = list(rows.values_list("before_id", "after_id"))
    # The new link is searched first, so that a circle is told starting from it.
    cycle = find_cycle([(before.pk, after.pk), *pairs])
    if cycle:
        titles = dict(Job.objects.filter(pk__in=cycle).values_list("pk", "title"))
        raise Refused(f"That would be a circle: {cycle_sentence(cycle, titles)}")


@transaction.atomic
def add(
    before: Job,
    after: Job,
    *,
    wait_minutes: int = 0,
    why: str = "",
    cure: str = "",
    cure_stage: str = "",
) -> Link:
    """`after` waits for `before`; a circle is refused with the circle spelled out.

    What the order of work drew gives way to what somebody links by hand.
    """
    if before.pk == after.pk:
        raise Refused(f"“{before}” cannot wait for itself.")
    if before.vehicle.garage_id != after.vehicle.garage_id:
        raise Refused("Both jobs must be in the same garage.")
    # Two people who link at once must not close a circle between them.
    Garage.objects.select_for_update().get(pk=before.vehicle.garage_id)
    if Link.objects.by_hand().filter(before=before, after=after).exists():
        raise Refused(f"“{after}” waits for “{before}” already.")
    _refuse_cycle(before, after)
    Link.objects.by_order().filter(before=before, after=after).delete()
    link = Link.objects.create(
        before=before,
        after=after,
        wait_minutes=wait_minutes,
        why=why,
        cure=cure,
        cure_stage=cure_stage,
    )
    _draw_anew(link)
    return link


@transaction.atomic
def change(link: Link, *, wait_minutes: int, why: str, cure: str = "", cure_stage: str = "") -> None:
    """Another wait; that of a cure which stays as it was keeps the guess it came with."""
    if not cure_stage or (cure, cure_stage) != (link.cure, link.cure_stage):
        link.wait_minutes = wait_minutes
    link.why, link.cure, link.cure_stage = why, cure, cure_stage
    link.save(update_fields=["wait_minutes", "why", "cure", "cure_stage"])
    _draw_anew(link)


@transaction.atomic
def remove(link: Link) -> None:
    """Take a link away that somebody wrote down; of one that was cut, take the cut back."""
    if link.by_order and not link.cut_because:
        raise Refused("The order of work draws this link: cut it with a reason.")
    strips = _strips(link)
    Link.objects.filter(pk=link.pk).delete()
    _draw_anew(link)
    _refuse_torn(strips)


@transaction.atomic
def cut(link: Link, *, because: str, by: Membership, at: datetime) -> None:
    """Leave the order of work aside between two jobs; it is not drawn again between them."""
    if not link.by_order:
        raise Refused("This link was written down by hand: take it away.")
    if not says_why(because):
        raise Refused(SAY_WHY, "because")
    strips = _strips(link)
    link.cut_because, link.cut_by, link.cut_at = because, by, at
    link.save(update_fields=["cut_because", "cut_by", "cut_at"])
    _draw_anew(link)
    # What was measured in time may now be measured too early: then it is measured again.
    for vehicle in {link.before.vehicle, link.after.vehicle}:
        remeasure.settle(vehicle, by=by, at=at)
    _refuse_torn(strips)


def _draw_anew(link: Link) -> None:
    """Of both its cars; and of those first whose order of work now leads round in a circle, so that it gives way."""
    for vehicle in (*_round(link), *{link.before.vehicle, link.after.vehicle}):
        draw_order(vehicle)


def _round(link: Link) -> list[Vehicle]:
    """The cars whose order of work leads on from the link and back to it."""
    standing = Link.objects.in_garage(link.before.vehicle.garage_id).standing().exclude(pk=link.pk)
    order = Order(standing.values_list("before_id", "after_id"))
    first, last = link.after_id, link.before_id
    cars = {
        car
        for before, after, car in standing.by_order().values_list("before_id", "after_id", "after__vehicle")
        if (before == first or order.leads(first, before)) and (after == last or order.leads(after, last))
    }
    return list(Vehicle.objects.filter(pk__in=cars))


@transaction.atomic
def hold_station(station: Station, first: Job, last: Job) -> StationHold:
    """From the start of `first` to the end of `last` the car keeps the station."""
    if first.vehicle_id != last.vehicle_id:
        raise Refused("Both jobs must be on the same car.")
    if station.garage_id != first.vehicle.garage_id:
        raise Refused("The station must be in the same garage.")
    if first != last and last not in following(first):
        raise Refused(f"“{last}” does not come after “{first}”: link them first.")
    if StationHold.objects.filter(station=station, first=first, last=last).exists():
        raise Refused(f"{station} is kept for these jobs already.")
    kept = StationHold.objects.create(station=station, first=first, last=last)
    draw_order(first.vehicle)
    return kept


@transaction.atomic
def free_station(kept: StationHold, *, by: Membership, at: datetime, because: str = "") -> None:
    """The car no longer keeps its place; one that is stripped stays so until its last job is done."""
    if not StationHold.objects.stripped().filter(pk=kept.pk).exists():
        StationHold.objects.filter(pk=kept.pk).delete()
    elif by.role != OWNER:
        raise Refused(f"{kept.first.vehicle} is stripped: only the owner frees {kept.station}, with a reason.")
    elif not says_why(because):
        raise Refused(SAY_WHY, "because")
    else:
        kept.freed_at, kept.freed_by, kept.freed_because = at, by, because.strip()
        kept.save(update_fields=["freed_at", "freed_by", "freed_because"])
    draw_order(kept.first.vehicle)


def _strips(link: Link) -> list[StationHold]:
    """Those of its cars whose last job comes after the first, as it must."""
    ends = StationHold.objects.filter(first__vehicle__in=[link.before.vehicle_id, link.after.vehicle_id])
    kept = ends.filter(last__state__in=OPEN_STATES).select_related("station", "first", "last")
    return [hold for hold in kept if hold.last in following(hold.first)]


def _refuse_torn(strips: list[StationHold]) -> None:
    for kept in strips:
        if kept.last not in following(kept.first):
            raise Refused(
                f"{kept.station} is kept from “{kept.first}” until “{kept.last}”: without this link "
                f"“{kept.last}” does not come after it."
            )
