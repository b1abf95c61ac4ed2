"""The work still ahead on a car, and what is known of its order, as the order of work is drawn from it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from builds.readings.engine import READINGS
from builds.readings.engine.car_job import NO_WORK
from builds.readings.engine.corners_said import corner_said
from builds.readings.engine.fits_said import comes_out_said, fits_said
from builds.readings.engine.kinds_of_work import KINDS, likely_kinds
from builds.readings.engine.kinds_said import may_open
from builds.readings.engine.order_of_work import CarJob, Pair
from builds.readings.engine.sorts_of_job import CORNER_SYSTEMS
from builds.readings.engine.what_leads import between
from builds.readings.engine.wheels_said import on_wheels_said
from builds.readings.engine.when_said import RAN, when_said
from builds.readings.facts.kinds import kinds_of
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.engine.faults import is_fault, said_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.states import OPEN_STATES, State
from garage.engine.opens_nothing_said import opens_nothing_said
from garage.engine.systems_said import systems_said
from garage.models import Entry, Vehicle

BEGUN = 0  # stands for a job that is no longer ahead


class AheadRow(NamedTuple):
    """What is asked of a job; `night` (pk) and when that begins and its car is ready, where it is done in one."""

    pk: int
    title: str
    was_called: str
    kinds: list[str]
    kinds_likely: bool
    measures: list[str]
    systems: list[str]
    recipe: str
    seen: bool
    found_in: int | None
    rank: str
    hands: int
    earliest_at: datetime | None
    night: int | None
    begins: datetime | None
    morning: datetime | None

    def ahead(self, now: datetime) -> bool:
        """Whether it is done in a night whose morning has still to come."""
        return self.morning is not None and self.morning > now

    @property
    def put_off(self) -> datetime | None:
        """Until when somebody put it off, where it is only wanted."""
        return self.earliest_at if self.rank == Job.Rank.WANTED else None


@dataclass(frozen=True)
class WorkAhead:
    """Jobs by pk, at home and in each night ahead, the next first; what leads from one to another, and what does not.

    `links` are those of the whole garage but those drawn for this car, `cut` those that somebody cut, `strips` from
    which job to which the car is stripped: a first one that has begun is `BEGUN`.
    """

    home: dict[int, CarJob]
    nights: tuple[dict[int, CarJob], ...] = ()
    links: tuple[Pair, ...] = ()
    cut: frozenset[Pair] = frozenset()
    strips: tuple[Pair, ...] = ()

    @property
    def others(self) -> dict[int, CarJob]:
        """Those at home but what measures and bleeds again."""
        return {pk: job for pk, job in self.home.items() if not job.again}


def work_ahead(vehicle: Vehicle, now: datetime) -> WorkAhead:
    """Seven queries at most; of what leads to what none is asked where there is nothing to be led to."""
    rows, nights = _rows(vehicle, now)
    if not rows:
        return WorkAhead({})
    jobs = _car_jobs(vehicle, rows)
    home, *away = ({job.pk: jobs[job.pk] for job in rows if job.night == night} for night in (None, *nights))
    strips = tuple(_strips(vehicle))
    if len(jobs) == 1 and not strips:
        return WorkAhead(home, tuple(away))
    return WorkAhead(home, tuple(away), tuple(_given(vehicle)), frozenset(_cut(vehicle)), strips)


def _rows(vehicle: Vehicle, now: datetime) -> tuple[list[AheadRow], list[int]]:
    """Rows of the jobs still to be worked on, and the nights (pk) ahead in which some of them are; two queries at most.

    One that only waits for eyes disturbs nothing. Wanted work that somebody put off until the car has left for its
    next event keeps nothing waiting. The night of one whose morning has come is none any more.
    """
    asked = Job.objects.on(vehicle).open().exclude(state=State.HELD, finished_at__isnull=False)
    told = ("pk", "title", "was_called", "kinds", "kinds_likely", "measures", "systems", "recipe", "seen", "found_in")
    when = ("rank", "hands", "earliest_at", "night_id", "night__from_at", "night__due_at")
    jobs = list(map(AheadRow._make, asked.values_list(*told, *when)))
    if any(job.put_off for job in jobs):
        leaves = _leaves(vehicle, now)
        jobs = [job for job in jobs if not (job.put_off and leaves and job.put_off >= leaves)]
    nights = {job.night: job.begins for job in jobs if job.ahead(now)}
    jobs = [job if job.ahead(now) else job._replace(night=None) for job in jobs]
    return jobs, sorted(nights, key=lambda night: (nights[night], night))


def _leaves(vehicle: Vehicle, now: datetime) -> datetime | None:
    entries = Entry.objects.filter(vehicle=vehicle).upcoming(now).select_related("event")
    return min((entry.event.due_at for entry in entries if entry.event.due_at > now), default=None)


def _car_jobs(vehicle: Vehicle, rows: Iterable[AheadRow]) -> dict[int, CarJob]:
    """What a recipe says of its job is all that it opens; of one written by hand that nobody described
    it is the worst that it may be. A reading of the garage's own stands where the one does that it follows.
    """
    asked = list(rows)
    own = {key for job in asked for key in job.measures} - READINGS.keys()
    follows = {key: kind.follows for key, kind in kinds_of(vehicle.garage).items()} if own else {}
    rolling = _seen_rolling([job.pk for job in asked if not job.recipe])
    return {job.pk: _car_job(job, follows, seen_rolling=job.pk in rolling) for job in asked}


def _car_job(job: AheadRow, follows: Mapping[str, str], *, seen_rolling: bool) -> CarJob:
    """Of one that is done once the car has run nothing is taken before that."""
    kinds = tuple(kind for kind in job.kinds if kind in KINDS)
    if not (kinds or job.recipe):
        kinds = likely_kinds(may_open(job.title, job.systems), job.measures)
    works = frozenset(kinds) - NO_WORK
    when = "" if job.recipe else when_said(job.title)
    taken = () if when == RAN else tuple(follows.get(key, key) for key in job.measures)
    return CarJob(
        kinds,
        tuple(slug for slug in taken if slug in READINGS),
        tuple(job.systems),
        again=job.recipe in TAKEN_AGAIN,
        faulty=is_fault(said_of(job.title, job.was_called), job.recipe, found=job.seen or job.found_in is not None),
        guessed=not job.recipe and (job.kinds_likely or not job.kinds),
        by_hand=not job.recipe,
        fits=not job.recipe and fits_said(job.title),
        comes_out=not job.recipe and comes_out_said(job.title),
        seen_rolling=seen_rolling,
        corner=corner_said(job.title),
        unsaid=_is_unsaid(job, works),
        cures=not (job.hands or works or CORNER_SYSTEMS.intersection(systems_said(job.title)))
        and "paint" in job.systems,
        when=when,
    )


def _is_unsaid(job: AheadRow, works: Collection[str]) -> bool:
    """Work that a car does not go without, of which nobody knows what it opens; what plainly opens nothing is none."""
    said = job.recipe or works or job.measures or not job.systems or not job.hands or when_said(job.title)
    return not said and job.rank != Job.Rank.WANTED and not opens_nothing_said(job.title)


def _seen_rolling(jobs: list[int]) -> set[int]:
    """Of these (pk) those at whose end somebody looks at what only a car on its wheels shows; one query at most."""
    if not jobs:
        return set()
    points = HoldPoint.objects.filter(job__in=jobs).unsigned().values_list("job_id", "what")
    return {job for job, what in points if on_wheels_said(what)}


def _given(vehicle: Vehicle) -> list[Pair]:
    """Links of the whole garage but those drawn for this car: order runs on through jobs of other cars.

    Of what is over only what lies between two jobs that are not: asked for step by step, since it is rare.
    """
    rows = Link.objects.in_garage(vehicle.garage_id).standing().exclude(by_order=True, after__vehicle=vehicle)
    links: list[Pair] = []
    still, over = set[int](), set[int]()
    asked = rows.filter(before__state__in=OPEN_STATES)
    while asked is not None:
        fresh = set[int]()
        for before, was, after, then in asked.values_list("before_id", "before__state", "after_id", "after__state"):
            links.append((before, after))
            still |= {job for job, state in ((before, was), (after, then)) if state in OPEN_STATES}
            if then not in OPEN_STATES and after not in over:
                fresh.add(after)
        over |= fresh
        asked = rows.filter(before__in=fresh) if fresh else None
    return between(links, still)


def _cut(vehicle: Vehicle) -> Iterable[Pair]:
    return Link.objects.filter(after__vehicle=vehicle).cut().values_list("before_id", "after_id")


def _strips(vehicle: Vehicle) -> list[Pair]:
    kept = StationHold.objects.with_begun().filter(last__vehicle=vehicle, last__state__in=OPEN_STATES)
    ends = kept.exclude(begun=False, first__state=State.DROPPED).values_list("first_id", "last_id", "begun")
    return [(BEGUN if begun else first, last) for first, last, begun in ends]
