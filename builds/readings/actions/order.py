"""The order of work on a car, kept as links that come and go with its jobs."""

from itertools import chain

from django.db import transaction
from django.db.models import Q

from builds.readings.engine import READINGS
from builds.readings.engine.corners_said import corner_said
from builds.readings.engine.fits_said import fits_said
from builds.readings.engine.kinds_of_work import KINDS, likely_kinds
from builds.readings.engine.kinds_said import on_wheels_said
from builds.readings.engine.order_of_work import CarJob, Pair, order_of_work
from builds.readings.engine.what_leads import between
from builds.readings.models.reading import OwnKind
from builds.work.engine.faults import is_fault, said_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import MEASURE_AGAIN, Job
from builds.work.models.link import Link, StationHold
from builds.work.models.states import OPEN_STATES, State
from garage import clock
from garage.models import Entry, Garage, Night, Vehicle

BEGUN = 0  # stands for a job that is no longer ahead


@transaction.atomic
def draw_order(vehicle: Vehicle) -> None:
    """Links between the open jobs of a car as the order of work has them, each with why.

    Called after whatever changes a job, a link or a kept station. Links from finished work stay,
    and tell which work it was.
    """
    # Two people who change work at once must not close a circle between them.
    Garage.objects.select_for_update().get(pk=vehicle.garage_id)
    wanted = _wanted(vehicle)
    drawn = Link.objects.by_order().standing().filter(after__vehicle=vehicle, after__state__in=OPEN_STATES)
    there = {(link.before_id, link.after_id): link for link in drawn}
    stale = [link.pk for pair, link in there.items() if pair not in wanted]
    Link.objects.filter(pk__in=stale, before__finished_at=None).delete()
    told = [link for pair, link in there.items() if pair in wanted and link.why != wanted[pair]]
    for link in told:
        link.why = wanted[link.before_id, link.after_id]
    Link.objects.bulk_update(told, ["why"])
    Link.objects.bulk_create(
        [
            Link(before_id=before, after_id=after, why=why, by_order=True)
            for (before, after), why in wanted.items()
            if (before, after) not in there
        ],
        ignore_conflicts=True,
    )


def _wanted(vehicle: Vehicle) -> dict[Pair, str]:
    """The order of the work at home, and by itself that of each night at an event: neither waits for the other."""
    at_home, *nights = (car_jobs(vehicle, night=night) for night in (None, *_nights(vehicle)))
    links, loose, kept = given(vehicle), cut(vehicle), strips(vehicle)
    away = set[int]().union(*nights)
    wanted = order_of_work(at_home, links, [strip for strip in kept if strip[1] not in away], loose)
    for jobs in nights:
        wanted |= order_of_work(jobs, [*links, *wanted], [strip for strip in kept if strip[1] in jobs], loose)
    return wanted


def _nights(vehicle: Vehicle) -> list[int]:
    """Those ahead (pk) in which something of the car is to be done, the next first."""
    return list(
        Night.objects.ahead(clock.now())
        .filter(jobs__in=Job.objects.on(vehicle).open())
        .distinct()
        .values_list("pk", flat=True)
    )


def draw_orders(garage: Garage) -> None:
    """The order of work of every car: some work counts again, or no more, by the clock or an event alone."""
    for vehicle in Vehicle.objects.in_garage(garage).kept():
        draw_order(vehicle)


def car_jobs(vehicle: Vehicle, *, with_measuring_again: bool = True, night: int | None = None) -> dict[int, CarJob]:
    """Jobs still to be worked on at home, or in a night (pk) ahead; one that only waits for eyes disturbs nothing.

    What a recipe says of its job is all that it opens; of one written by hand that nobody described
    it is the worst that it may be. Wanted work that somebody put off until the car has left for its
    next event keeps nothing waiting. A reading of the garage's own stands where the one does that it follows.
    """
    rows = Job.objects.on(vehicle).open().exclude(state=State.HELD, finished_at__isnull=False)
    now = clock.now()
    entries = Entry.objects.filter(vehicle=vehicle).upcoming(now).select_related("event")
    if leaves := min((entry.event.due_at for entry in entries if entry.event.due_at > now), default=None):
        rows = rows.exclude(rank=Job.Rank.WANTED, earliest_at__gte=leaves)
    away = Q(night__due_at__gt=now)
    rows = rows.filter(away, night=night) if night else rows.exclude(away)
    if not with_measuring_again:
        rows = rows.exclude(recipe=MEASURE_AGAIN)
    rolling = {
        job
        for job, what in HoldPoint.objects.filter(job__in=rows).unsigned().values_list("job_id", "what")
        if on_wheels_said(what)
    }
    follows = {kind.key: kind.follows for kind in OwnKind.objects.in_garage(vehicle.garage_id)}
    return {
        pk: CarJob(
            tuple(kind for kind in kinds if kind in KINDS) or (() if recipe else likely_kinds(systems, measures)),
            tuple(slug for key in measures if (slug := follows.get(key, key)) in READINGS),
            tuple(systems),
            again=recipe == MEASURE_AGAIN,
            faulty=is_fault(said_of(title, was_called), recipe, found=seen or found_in is not None),
            guessed=not recipe and (likely or not kinds),
            by_hand=not recipe,
            fits=not recipe and fits_said(title),
            seen_rolling=not recipe and pk in rolling,
            corner=corner_said(title),
        )
        for pk, title, was_called, kinds, likely, measures, systems, recipe, seen, found_in in rows.values_list(
            *("pk", "title", "was_called", "kinds", "kinds_likely", "measures", "systems", "recipe"),
            *("seen", "found_in"),
        )
    }


def given(vehicle: Vehicle) -> list[Pair]:
    """Links of the whole garage but those drawn for this car: order runs on through jobs of other cars.

    Of what is over only what lies between two jobs that are not.
    """
    rows = Link.objects.in_garage(vehicle.garage_id).standing().exclude(by_order=True, after__vehicle=vehicle)
    links = list(rows.values_list("before_id", "before__state", "after_id", "after__state"))
    ends = ((before, was) for before, was, _, _ in links), ((after, then) for _, _, after, then in links)
    still = {job for job, state in chain(*ends) if state in OPEN_STATES}
    return between(((before, after) for before, _, after, _ in links), still)


def cut(vehicle: Vehicle) -> set[Pair]:
    return set(Link.objects.filter(after__vehicle=vehicle).cut().values_list("before_id", "after_id"))


def strips(vehicle: Vehicle) -> list[Pair]:
    """From which job to which the car is stripped; a first one that has begun is given as none."""
    kept = StationHold.objects.with_begun().filter(last__vehicle=vehicle, last__state__in=OPEN_STATES)
    ends = kept.exclude(begun=False, first__state=State.DROPPED).values_list("first_id", "last_id", "begun")
    return [(BEGUN if begun else first, last) for first, last, begun in ends]
