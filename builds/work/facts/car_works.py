"""What touched each car lately: its work, its running, and when its last event was."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, Q, Subquery

from builds.work.engine.car_work import RUNNING, CarWork, ran_work
from builds.work.engine.only_read import touched_by
from builds.work.facts.runs import RunsByCar, runs_of
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job, names_any
from builds.work.models.owed import Owed
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, State
from garage.models import Entry, Garage, Vehicle

LOOKED_BACK = timedelta(days=400)
FIELDS = (
    *("pk", "vehicle_id", "title", "recipe", "systems", "kinds", "measures", "rank", "state"),
    *("finished_at", "off_at", "whole_because"),
)


def works_of(
    garage: Garage,
    cars: Iterable[Vehicle],
    at: datetime,
    *,
    back: datetime | None = None,
    kinds: Collection[str] | None = None,
    runs: RunsByCar | None = None,
) -> dict[int, list[CarWork]]:
    """Of each car (pk) the work that was finished or put down since `back`, or is in hand.

    `back` is 400 days ago unless it is given; of the `kinds` (slugs), else of any. Three queries. Work
    stands under the moment at which hands last left it. That a car ran is among it, as `runs_of` has
    it, unless its `runs` are at hand, and what gives back the parts that are off it.
    """
    held, since, zone = list(cars), back or at - LOOKED_BACK, ZoneInfo(garage.time_zone)
    left = _left(held, since) if kinds is None or kinds else {}
    finished = Q(state__in=[*FINISHED_STATES, State.HELD], finished_at__gte=since)
    told = EntryRun.objects.filter(job=OuterRef("pk"))
    off = Owed.objects.off().filter(job=OuterRef("pk")).values("move__at")
    rows = Job.objects.filter(vehicle__in=held).annotate(off_at=Subquery(off))
    jobs = rows.filter(finished | Q(pk__in=left) | ~Q(off_at=None)).exclude(Exists(told)).order_by("pk")
    works: dict[int, list[CarWork]] = defaultdict(list)
    if kinds is not None:
        jobs = jobs.with_texts().filter(names_any("kinds", kinds)) if kinds else jobs.none()
    for job in jobs.values(*FIELDS):
        if RUNNING in job["kinds"] and job["state"] == State.DROPPED:
            continue  # it was taken back: the car did not run
        off = bool(job["off_at"]) and not job["whole_because"]
        ended = None if off else left.get(job["pk"], job["off_at"] or since)
        if ended is not None and job["finished_at"]:
            ended = max(ended, job["finished_at"])
        local = ended.astimezone(zone) if ended else None
        wanted = job["rank"] == Job.Rank.WANTED
        systems, done = touched_by(job["recipe"], job["systems"], job["kinds"], job["measures"])
        work = CarWork(job["title"], systems, done, local, wanted, off=off)
        works[job["vehicle_id"]].append(work)
    for car, ran in (runs_of(garage, held, at) if runs is None else runs).items():
        works[car] += [work for run in ran for work in ran_work(run, zone) if work.ended and work.ended >= since]
    return works


def _left(cars: list[Vehicle], since: datetime) -> dict[int, datetime | None]:
    """Jobs (pk) that hands were on since then: when they last left it, None while it is in hand.

    Hands that go to a finished job take the moment from it at which it was finished.
    """
    jobs = Q(job__finished_at__gte=since) | Q(job__finished_at=None)
    spans = Span.objects.filter(jobs, job__vehicle__in=cars).by_hands().exclude(until_at__lt=since)
    ended: dict[int, datetime | None] = {}
    for job, state, start, until in spans.values_list("job_id", "state", "from_at", "until_at"):
        # Work that nobody started ended when it was finished, though it was opened again.
        left = until if state == State.IN_HAND else start
        if left is not None and left < since:
            continue
        before = ended.get(job, since)
        ended[job] = None if left is None or before is None else max(before, left)
    return ended


def last_events(entries: Iterable[Entry]) -> dict[int, datetime]:
    """When the last event before each entry was over, by the pk of its car; one query."""
    asked = {entry.vehicle_id: entry for entry in entries}
    rows = (
        Entry.objects.coming().filter(vehicle__in=list(asked)).values_list("vehicle_id", "event_id", "event__ends_at")
    )
    last: dict[int, datetime] = {}
    for car, event, ends in rows:
        own = asked[car]
        if event != own.event_id and ends <= own.event.gates_at:
            last[car] = max(ends, last.get(car, ends))
    return last
