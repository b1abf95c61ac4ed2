"""Rows of the pre-event sheet of one car for one event."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks_of
from builds.plan.facts.prospects import prospects
from builds.plan.facts.stored import shown
from builds.steps.engine.cautions import cautions_for, standing_caution
from builds.steps.pages.looks import signer_words
from builds.travel.engine import ride_words
from builds.travel.facts import ride_of, troubles_of_entry
from builds.verdict.engine import Reason, Severity, Verdict
from builds.work.engine.state_words import UNSIGNED
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.states import FINISHED_STATES, State
from garage.engine.moments import moment_words, paper_words
from garage.models import Entry, Event, Vehicle
from garage.public import public


@dataclass(frozen=True)
class JobRow:
    """`mark` is the stripe of finished work: full when signed, dashed when only done."""

    title: str
    note: str
    mark: str = ""


@dataclass(frozen=True)
class ChecklistRows:
    """Everything in words already; what is in `reasons` stands nowhere else.

    `rides` is how the car gets there, `troubles` what stands against that.
    """

    garage: str
    paper: str
    car: str
    what: str
    event: str
    leaves: str
    gates: str
    rides: str
    troubles: tuple[str, ...]
    computed: str
    verdict: Verdict
    outlook: str
    on_plan: str
    reasons: tuple[JobRow, ...]
    wanted: tuple[JobRow, ...]
    hold_points: tuple[JobRow, ...]
    cuts: tuple[str, ...]
    done: tuple[JobRow, ...]
    since: str
    cautions: tuple[str, ...]
    standing: str
    address: str


def checklist_rows(entry: Entry, at: datetime) -> ChecklistRows:
    vehicle, event, garage = entry.vehicle, entry.event, entry.event.garage
    zone = ZoneInfo(garage.time_zone)
    plan = shown(garage)
    prospect = prospects(garage, at, [vehicle], plan, {vehicle.pk: entry})[vehicle.pk]
    verdict, last = prospect.verdict, _last_event(entry, at)
    to_do, finished = {job.pk: job for job in Job.objects.on(vehicle).open().with_night()}, _finished(vehicle, last)
    outlooks = outlooks_of(plan, [entry], must_do(to_do.values()), {vehicle.pk: prospect}, at)
    told = _refs(verdict, lambda reason: reason.kind == "job")
    return ChecklistRows(
        garage=garage.name,
        paper=garage.paper,
        car=vehicle.name,
        what=vehicle.what,
        event=event.name,
        leaves=moment_words(event.due_at, zone, at),
        gates=moment_words(event.gates_at, zone, at),
        rides=ride_words(ride_of(entry)),
        troubles=tuple(troubles_of_entry(garage, entry, at)),
        computed=paper_words(at, zone),
        verdict=verdict,
        outlook=outlooks[entry.pk].sentence if prospect.on_plan else "",
        on_plan=prospect.on_plan.sentence if prospect.on_plan else "",
        reasons=tuple(
            JobRow(reason.sentence, _clears(reason.clears, _job(reason, to_do), at)) for reason in verdict.reasons
        ),
        wanted=tuple(JobRow(job.called, _clears("", job, at)) for job in to_do.values() if job.pk not in told),
        hold_points=_hold_points(vehicle, verdict),
        cuts=_cuts(vehicle, zone, at),
        done=_done(finished, verdict, zone, at),
        since=f"since {last.name}" if last else "so far",
        cautions=_cautions([*to_do.values(), *finished]),
        standing=standing_caution(),
        address=public(reverse("vehicle_page", args=[vehicle.pk])),
    )


def _refs(verdict: Verdict, wanted: Callable[[Reason], bool]) -> set[int]:
    """What (pk) the reasons of a kind are about."""
    return {reason.ref for reason in verdict.reasons if wanted(reason)}


def _last_event(entry: Entry, at: datetime) -> Event | None:
    """The latest event that this car was entered for and that is over."""
    return (
        Event.objects.in_garage(entry.event.garage_id)
        .past(at)
        .filter(entries__in=Entry.objects.coming().filter(vehicle=entry.vehicle_id))
        .exclude(pk=entry.event_id)
        .first()
    )


def _finished(vehicle: Vehicle, last: Event | None) -> list[Job]:
    """Done or signed since the last event, else ever."""
    over = Job.objects.on(vehicle).filter(state__in=FINISHED_STATES)
    if last:
        over = over.finished_since(last.ends_at)
    return list(over.select_related("signed_by__person", "signed_written_by__person").order_by("finished_at", "pk"))


def _hold_points(vehicle: Vehicle, verdict: Verdict) -> tuple[JobRow, ...]:
    """Those that no reason names already."""
    named = _refs(verdict, lambda reason: reason.severity in (Severity.HOLD_POINT, Severity.HOLD_AHEAD))
    points = HoldPoint.objects.filter(job__vehicle=vehicle).unsigned().select_related("job")
    return tuple(JobRow(point.what, point.job.title) for point in points if point.job_id not in named)


def _cuts(vehicle: Vehicle, zone: ZoneInfo, at: datetime) -> tuple[str, ...]:
    """Links of the order of work that somebody cut, before jobs that are not dropped."""
    links = Link.objects.filter(after__vehicle=vehicle).cut().exclude(after__state=State.DROPPED)
    return tuple(
        f"“{link.after}” does not wait for “{link.before}”: {link.cut_because}{_cut_by(link, zone, at)}"
        for link in links.select_related("before", "after", "cut_by__person")
    )


def _cut_by(link: Link, zone: ZoneInfo, at: datetime) -> str:
    return f" ({link.cut_by}, {moment_words(link.cut_at, zone, at)})" if link.cut_at else ""


def _done(jobs: list[Job], verdict: Verdict, zone: ZoneInfo, at: datetime) -> tuple[JobRow, ...]:
    unsigned = _refs(verdict, lambda reason: reason.severity is Severity.UNSIGNED)
    return tuple(
        JobRow(job.title, _end(job, job.pk in unsigned, zone, at), "full" if job.signed_by else "dashed")
        for job in jobs
    )


def _end(job: Job, is_unsigned: bool, zone: ZoneInfo, at: datetime) -> str:
    """How it was finished, or signed, and when."""
    ended = job.signed_at or job.finished_at
    when = moment_words(ended, zone, at) if ended else ""
    if job.signed_by is None:
        return ", ".join(filter(None, [UNSIGNED if is_unsigned else "done", when]))
    return ", ".join(filter(None, [f"signed by {signer_words(job)}", when]))


def _cautions(jobs: list[Job]) -> tuple[str, ...]:
    systems = {slug for job in jobs for slug in job.systems}
    kinds = {slug for job in jobs for slug in job.kinds}
    return tuple(caution.text for caution in cautions_for(systems, kinds))


def _job(reason: Reason, jobs: Mapping[int, Job]) -> Job | None:
    """Which of these a reason is about; other kinds of reasons name other rows."""
    return jobs.get(reason.ref) if reason.kind == "job" else None


def _clears(clears: str, job: Job | None, at: datetime) -> str:
    """What clears it, and how a job stands that is more than open."""
    if job is not None and (night := job.overnight(at)):
        clears = f"{clears} Overnight at {night.event}.".strip()
    if job is None or job.state == State.OPEN:
        return clears
    stands = f"Now {job.get_state_display()}{f': {job.state_note}' if job.state_note else ''}."
    return f"{clears} {stands}".strip()
