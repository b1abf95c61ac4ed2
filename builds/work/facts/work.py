"""The work of a garage as it stands: open jobs, what they wait for, who is on them since when."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import datetime
from itertools import starmap

from django.db.models import Exists, OuterRef, Prefetch

from builds.cure.facts.shop import shop_of
from builds.work.engine.cure_times import CureTimes
from builds.work.engine.open_work import Work
from builds.work.engine.working_order import Wait
from builds.work.facts.waits import AS_WAIT, binding
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from builds.work.models.span import Span
from garage.models import Garage, Membership
from garage.remembered import remembered


def with_people(members: str) -> Prefetch:
    """The crew of spans with their names, in one query."""
    return Prefetch(members, Membership.objects.select_related("person"))


def _waits(garage: Garage, jobs: Mapping[int, Job]) -> tuple[list[Wait], dict[int, Job]]:
    """The links that bind, as waits, and what comes first in one of them: open `jobs` as they are at hand, others
    with car and signature.

    Read each time: the order of work is drawn anew beside the answer to a write, which nobody counts.
    """
    waits = list(starmap(Wait, Link.objects.in_garage(garage).binding().values_list(*AS_WAIT)))
    known = {**jobs, **_over(garage, {pk for wait in waits for pk in (wait.before, wait.after)} - jobs.keys())}
    before = {wait.before: known[wait.before] for wait in waits}
    return binding(waits, known), before


def _over(garage: Garage, pks: set[int]) -> dict[int, Job]:
    """Jobs (pk) that are not open; one query, none where all of them are remembered."""
    over: dict[int, Job] = remembered(garage, "over", dict)
    if left := pks - over.keys():
        rows = Job.objects.filter(pk__in=left).select_related("vehicle", "signed_by__person")
        over |= {job.pk: job for job in rows}
    return {pk: over[pk] for pk in pks}


def load_work(garage: Garage, at: datetime) -> Work:
    """Six queries, however many jobs there are, and four more where a cure runs; one where it is remembered."""
    jobs, spans, unsigned = remembered(garage, "open_work", lambda: _rows(garage))
    waits, before = _waits(garage, jobs)
    return Work(
        garage,
        at,
        jobs,
        before,
        [wait for wait in waits if wait.after in jobs],
        spans,
        unsigned,
        CureTimes(shop_of(garage, at)),
    )


def _rows(garage: Garage) -> tuple[dict[int, Job], dict[int, list[Span]], dict[int, list[HoldPoint]]]:
    """Open jobs by pk, and by job (pk) their stretches of work and unsigned hold points."""
    rows = Job.objects.in_garage(garage).open().select_related("vehicle", "skill").with_night()
    jobs = {job.pk: job for job in rows.annotate(wants_parts=Exists(Need.objects.filter(job=OuterRef("pk"))))}
    spans: dict[int, list[Span]] = defaultdict(list)
    worked = Span.objects.in_garage(garage).of_open().worked()
    for span in worked.prefetch_related(with_people("crew")):
        spans[span.job_id].append(span)
    unsigned: dict[int, list[HoldPoint]] = defaultdict(list)
    for point in HoldPoint.objects.in_garage(garage).unsigned().of_open():
        unsigned[point.job_id].append(point)
    return jobs, spans, unsigned
