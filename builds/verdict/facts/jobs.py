"""What the verdict is told of jobs, car by car, and which of them a hold point has looked at."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import Exists, F, OuterRef, Q, Subquery

from builds.gear.engine import off_its_car
from builds.readings.engine.amiss import only_sets
from builds.scrutineering.models.check import CheckLog
from builds.steps.facts.looks import MAY_WANT_LOOK, covering_on, is_covered, unread
from builds.verdict.engine import JobFact
from builds.work.engine.again import MEASURES_AGAIN
from builds.work.engine.apart import PULLED
from builds.work.engine.faults import is_fault, said_of
from builds.work.engine.only_read import only_looks
from builds.work.models.job import Job
from builds.work.models.owed import Owed
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, OPEN_STATES, State
from garage.engine.systems_said import sound_said, systems_said
from garage.models import Vehicle

# Kinds of work that leave no joint loose while they are half done.
LEAVES_WHOLE = frozenset({"tyre_or_pressure", "mass_moved", "engine_run", "driven"})
# What is off the car, or lets something out of it, while such work is half done.
APART = frozenset(
    {
        *("mass_unit_moved", "engine_mount", "engine_work", "coolant", "clutch_line", "throttle", "brake_vacuum"),
        *("glass_bonding", "glued"),
    }
)
JOB_FIELDS = (
    "pk",
    "title",
    "rank",
    "state",
    "systems",
    "kinds",
    "measures",
    "lowered_because",
    "was_safety",
    "recipe",
    "whole_because",
    "off",
    "nothing_because",
    "not_opened",
    "not_touched",
    "finished_at",
    "found_in_id",
    "seen",
    "was_called",
    "was_unread",
    "turned_out",
    "kinds_likely",
    "state_note",
)
# What says anything of what a job touches.
SAYS_WHAT = ("recipe", "systems", "kinds", "measures", "turned_out")
# What was dropped without hands on it is told where somebody had seen it; a plan that is given up is not.
NEVER_DONE = Q(state=State.DROPPED, recipe="")
# Dropped with hands on it, or with its part off the car.
_LEFT = Q(state=State.DROPPED) & (Q(handled=True) | ~Q(off=None))


def job_facts(vehicles: list[Vehicle], mentioned: set[int], since: datetime | None) -> dict[int, list[JobFact]]:
    """Every job that can be a reason or ranks lower with one, and those that a hold point or a strip mentions.

    Of those said to have opened nothing the ones that ended at a moment or after it: nothing that stands is older.
    What was found comes first, then what was written down first.
    """
    points = covering_on(vehicles)
    facts: dict[int, list[JobFact]] = defaultdict(list)
    for job in _rows(vehicles, mentioned, since):
        # A job put down without a history is taken as begun: not known is not fit.
        untold = job["state"] in (State.WAITING, State.HELD) and not job["told"]
        facts[job["vehicle_id"]].append(_fact(job, worked=job["handled"] or untold, covered=is_covered(job, points)))
    return facts


def _rows(vehicles: list[Vehicle], mentioned: set[int], since: datetime | None) -> Iterable[dict[str, Any]]:
    spans = Span.objects.filter(job=OuterRef("pk"))
    drops = spans.filter(state=State.DROPPED).order_by("-from_at", "-pk")
    # Held with hands on it: work that nobody started was finished and waits at its hold point.
    stopped = Q(state=State.HELD, crew__isnull=False)
    done = Q(state=State.DONE) & (MAY_WANT_LOOK | ~Q(lowered_because=""))
    word = ~Q(nothing_because="") & Q(state__in=FINISHED_STATES, finished_at__gte=since) if since else Q(pk=None)
    given_up = Q(NEVER_DONE, dropped_at__gte=since) if since else Q(pk=None)
    return (
        Job.objects.filter(vehicle__in=vehicles)
        .with_texts()
        .annotate(handled=Exists(spans.filter(Q(state__in=[State.IN_HAND, *FINISHED_STATES]) | stopped)))
        .annotate(told=Exists(spans))
        .annotate(off=Subquery(Owed.objects.off().filter(job=OuterRef("pk")).values("move__part__name")[:1]))
        .annotate(failed=Exists(CheckLog.objects.filter(job=OuterRef("pk"), step="fail")))
        .annotate(
            dropped_at=Subquery(drops.values("from_at")[:1]), dropped_by=Subquery(drops.values("by__person__name")[:1])
        )
        .filter(Q(state__in=OPEN_STATES) | done | word | _LEFT | given_up | Q(pk__in=mentioned))
        .order_by(F("found_in").asc(nulls_last=True), "pk")
        .values(*JOB_FIELDS, "vehicle_id", "handled", "told", "failed", "dropped_at", "dropped_by")
    )


def _fact(job: Mapping[str, Any], *, worked: bool, covered: bool) -> JobFact:
    over = job["state"] == State.DROPPED
    return JobFact(
        job["pk"],
        job["title"],
        job["rank"],
        job["state"],
        tuple(job["systems"]),
        worked=worked,
        covered=covered,
        lowered_because=job["lowered_because"],
        was_safety=job["was_safety"],
        kinds=tuple(job["kinds"]),
        opens=_opens(job),
        whole_because=job["whole_because"],
        off=job["off"] or "",
        nothing_because=job["nothing_because"],
        not_opened=tuple(job["not_opened"]),
        not_touched=tuple(job["not_touched"]),
        ended=job["dropped_at"] if over else job["finished_at"],
        fault=_is_fault(job),
        unsaid=unread(job) or not any(job[name] for name in SAYS_WHAT),
        was_called=job["was_called"],
        names_nothing=not systems_said(said_of(job["title"], job["was_called"])),
        dropped_because=job["state_note"] if over else "",
        dropped_by=job["dropped_by"] or "" if over else "",
        gear_off=off_its_car(job["title"], job["state_note"]) if job["state"] == State.WAITING else "",
        apart=not APART.isdisjoint(job["kinds"]) or (job["kinds_likely"] and not job["kinds"]),
    )


def _is_fault(job: Mapping[str, Any]) -> bool:
    """What somebody found or failed, or wrote down as one; a recipe is work, whatever its jobs are called.

    A part that is off the car is missing from it, whatever the car was like before.
    """
    first = job["was_called"] or job["title"]
    found = (job["seen"] or job["found_in_id"] is not None) and not (only_sets(first) or sound_said(first))
    # Of one that was dropped its part is off, or its pulling was undone.
    off = job["off"] or (PULLED in job["kinds"] and job["state"] != State.DROPPED)
    seen = found or job["failed"] or bool(off)
    return seen or is_fault(said_of(job["title"], job["was_called"]), job["recipe"])


def _opens(job: Mapping[str, Any]) -> bool:
    """Unless its recipe, or that it only measures again, says that it takes nothing apart."""
    if job["recipe"] in MEASURES_AGAIN:
        return False
    if only_looks(job["recipe"], job["kinds"], job["measures"]):
        return False
    return not (job["recipe"] and job["kinds"] and LEAVES_WHOLE.issuperset(job["kinds"]))
