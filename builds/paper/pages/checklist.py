"""Rows of the pre-event sheet of one car for one event."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.conf import settings
from django.urls import reverse

from builds.plan.facts.prospects import prospects
from builds.plan.facts.stored import shown
from builds.steps.engine.cautions import cautions_for, standing_caution
from builds.verdict.engine import Severity, Verdict
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State
from garage.engine.moments import moment_words, paper_words
from garage.models import Entry, Event


@dataclass(frozen=True)
class JobRow:
    """`mark` is the stripe of finished work: full when signed, dashed when only done."""

    title: str
    note: str
    mark: str = ""


@dataclass(frozen=True)
class ChecklistRows:
    """Everything in words already; what is in `reasons` stands nowhere else."""

    garage: str
    paper: str
    car: str
    what: str
    event: str
    leaves: str
    gates: str
    computed: str
    verdict: Verdict
    on_plan: str
    reasons: tuple[JobRow, ...]
    wanted: tuple[JobRow, ...]
    hold_points: tuple[JobRow, ...]
    done: tuple[JobRow, ...]
    since: str
    cautions: tuple[str, ...]
    standing: str
    address: str


def checklist_rows(entry: Entry, at: datetime) -> ChecklistRows:
    vehicle, event, garage = entry.vehicle, entry.event, entry.event.garage
    zone = ZoneInfo(garage.time_zone)
    prospect = prospects(garage, at, [vehicle], shown(garage), {vehicle.pk: entry})[vehicle.pk]
    found = prospect.verdict
    to_do = {job.pk: job for job in Job.objects.on(vehicle).open()}
    told = {each.ref for each in found.reasons if each.kind == "job"}
    last = _last_event(entry, at)
    over = Job.objects.on(vehicle).filter(state__in=FINISHED_STATES)
    if last:
        over = over.finished_since(last.ends_at)
    finished = list(over.select_related("signed_by__person").order_by("finished_at", "pk"))
    points = HoldPoint.objects.filter(job__vehicle=vehicle).unsigned().select_related("job")
    touched = [*to_do.values(), *finished]
    unsigned = {each.ref for each in found.reasons if each.severity is Severity.UNSIGNED}
    points_told = (Severity.HOLD_POINT, Severity.HOLD_AHEAD)
    looked_for = {each.ref for each in found.reasons if each.severity in points_told}
    return ChecklistRows(
        garage=garage.name,
        paper=garage.paper,
        car=vehicle.name,
        what=vehicle.what,
        event=event.name,
        leaves=moment_words(event.due_at, zone, at),
        gates=moment_words(event.gates_at, zone, at),
        computed=paper_words(at, zone),
        verdict=found,
        on_plan=prospect.on_plan.sentence if prospect.on_plan else "",
        reasons=tuple(JobRow(each.sentence, _now(each.clears, to_do.get(each.ref))) for each in found.reasons),
        wanted=tuple(JobRow(job.title, _now("", job)) for job in to_do.values() if job.pk not in told),
        hold_points=tuple(JobRow(point.what, point.job.title) for point in points if point.job_id not in looked_for),
        done=tuple(
            JobRow(job.title, _finished(job, zone, at, unsigned), "full" if job.signed_by else "dashed")
            for job in finished
        ),
        since=f"since {last.name}" if last else "so far",
        cautions=tuple(
            caution.text
            for caution in cautions_for(
                {slug for job in touched for slug in job.systems},
                {slug for job in touched for slug in job.kinds},
            )
        ),
        standing=standing_caution(),
        address=f"{settings.PUBLIC_URL}{reverse('vehicle_page', args=[vehicle.pk])}",
    )


def _now(clears: str, job: Job | None) -> str:
    """What clears it, and how a job stands that is more than open."""
    if job is None or job.state == State.OPEN:
        return clears
    stands = f"Now {job.get_state_display()}{f': {job.state_note}' if job.state_note else ''}."
    return f"{clears} {stands}".strip()


def _last_event(entry: Entry, at: datetime) -> Event | None:
    """The latest event that this car was entered for and that is over."""
    return (
        Event.objects.in_garage(entry.event.garage_id)
        .past(at)
        .filter(entries__vehicle=entry.vehicle_id)
        .exclude(pk=entry.event_id)
        .first()
    )


def _finished(job: Job, zone: ZoneInfo, at: datetime, unsigned: set[int]) -> str:
    when = moment_words(job.finished_at, zone, at) if job.finished_at else ""
    if job.signed_by is None:
        return ", ".join(filter(None, ["done, not signed" if job.pk in unsigned else "done", when]))
    alone = ", alone: nobody else is in this garage" if job.signed_alone else ""
    return ", ".join(filter(None, [f"signed by {job.signed_by}{alone}", when]))
