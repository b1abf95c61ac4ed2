"""Everything that a job's page says."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.engine.cautions import Caution, cautions_for
from builds.engine.systems import SYSTEMS
from builds.engine.working_order import Joint
from builds.loaders.cards import JobCard
from builds.loaders.job_cards import card_of, done_card, names
from builds.loaders.work import Work, clock_words, load_work, ready_at, spent_minutes, with_people
from builds.models import Finding, HoldPoint, Job, Link, Span, StationHold
from builds.models.states import OPEN_STATES, STEPS, State
from garage.engine.words import duration_words

STEP_LABELS = {
    "start": "Start",
    "finish": "Finish",
    "stop": "Put it down",
    "release": "Release",
    "sign": "Sign it off",
    "hold": "Hold",
    "drop": "Drop",
    "reopen": "Open again",
}
ASK_WHY = ("hold", "drop", "reopen")


@dataclass(frozen=True)
class StepLine:
    """A step that the job can take now; `asks` when it wants a reason first."""

    name: str
    label: str
    url: str
    asks: bool
    kind: str


@dataclass(frozen=True)
class LinkLine:
    """The other job of a link, its state in words, and the wait between."""

    link: Link
    other: Job
    wait: str
    ready: str


@dataclass(frozen=True)
class LogLine:
    """A stretch of the job's life in one state."""

    state: str
    since: str
    lasted: str
    by: str
    note: str


@dataclass(frozen=True)
class JobView:
    job: Job
    card: JobCard
    cautions: tuple[Caution, ...]
    systems: str
    spent: str
    steps: tuple[StepLine, ...]
    blocks: tuple[str, ...]
    waits_for: tuple[LinkLine, ...]
    waited_by: tuple[LinkLine, ...]
    hold_points: tuple[HoldPoint, ...]
    holds: tuple[StationHold, ...]
    log: tuple[LogLine, ...]
    found: tuple[Finding, ...]


def steps_of(job: Job, *, blocked: bool, unsigned: bool) -> tuple[StepLine, ...]:
    """The legal steps, the likeliest first; a held job whose points are open is not released."""
    found = []
    for name, label in STEP_LABELS.items():
        if job.state not in STEPS[name].before:
            continue
        if name == "release" and unsigned and job.finished_at:
            continue
        if name == "start" and blocked:
            continue
        if name == "finish" and job.state == State.OPEN and blocked:
            continue
        found.append(
            StepLine(
                name,
                label,
                reverse(f"job_{name}", args=[job.pk]),
                name in ASK_WHY,
                "main" if not found and name not in ASK_WHY else "plain",
            )
        )
    return tuple(found)


def _link_line(link: Link, other: Job, before: Job, at: datetime) -> LinkLine:
    wait = ""
    if link.wait_minutes:
        wait = f"{duration_words(link.wait_minutes)}{f', {link.why}' if link.why else ''}"
    elif link.why:
        wait = link.why
    ready = ready_at_link(link, before)
    return LinkLine(link, other, wait, clock_words(ready, at) if ready and ready > at else "")


def ready_at_link(link: Link, before: Job) -> datetime | None:
    return ready_at(
        Joint(link.before_id, link.after_id, link.wait_minutes, link.why, link.cure), before
    )


def _log(spans: list[Span], at: datetime) -> tuple[LogLine, ...]:
    lines = []
    for span in spans:
        ended = span.until_at or at
        lasting = span.state in OPEN_STATES
        crew = names(span.crew.all()) if span.crew.all() else ""
        lines.append(
            LogLine(
                State(span.state).label,
                clock_words(span.from_at, at),
                duration_words(int((ended - span.from_at).total_seconds() // 60))
                if lasting
                else "",
                crew or span.by.name,
                span.note,
            )
        )
    return tuple(lines)


def view_of(job: Job, at: datetime) -> JobView:
    work: Work = load_work(job.vehicle.garage, at)
    is_open = job.pk in work.jobs
    blocks = tuple(block.sentence for block in work.blocks(job.pk)) if is_open else ()
    points = tuple(HoldPoint.objects.filter(job=job).select_related("signed_by__person"))
    unsigned = any(point.signed_at is None for point in points)
    links = Link.objects.of(job).select_related("before__vehicle", "after__vehicle")
    spans = Span.objects.filter(job=job).select_related("by__person")
    return JobView(
        job=job,
        card=card_of(work.jobs[job.pk], work) if is_open else done_card(job, at),
        cautions=cautions_for(
            job.systems, job.kinds, [use.station.slug for use in job.uses.select_related("station")]
        ),
        systems=", ".join(SYSTEMS[slug].label.lower() for slug in job.systems if slug in SYSTEMS),
        spent=duration_words(spent_minutes(job, at)),
        steps=steps_of(job, blocked=bool(blocks), unsigned=unsigned),
        blocks=blocks,
        waits_for=tuple(
            _link_line(link, link.before, link.before, at)
            for link in links
            if link.after_id == job.pk
        ),
        waited_by=tuple(
            _link_line(link, link.after, link.before, at)
            for link in links
            if link.before_id == job.pk
        ),
        hold_points=points,
        holds=tuple(StationHold.objects.of(job).select_related("station", "first", "last")),
        log=_log(list(spans.prefetch_related(with_people("crew"))), at),
        found=tuple(Finding.objects.filter(during=job).select_related("opened", "by__person")),
    )
