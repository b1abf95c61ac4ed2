"""All that a job's page shows."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.jobs.pages.job_waits import JobWaits, cure_words, job_waits
from builds.readings.engine.kinds_of_work import KINDS
from builds.recipes.facts import recipe_title
from builds.steps.engine.cautions import cautions_for, standing_caution
from builds.steps.pages.job_cards import STRIPES, card_of, done_card
from builds.steps.pages.time_log import (
    LogLine,
    PointLine,
    eyes_words,
    log_lines,
    may_sign,
    names,
    point_lines,
    signed_words,
)
from builds.work.facts.waits import ready_words, wait_of
from builds.work.facts.work import Work, load_work, with_people
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.link import Link, StationHold
from builds.work.models.skill_loan import SkillLoan
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, JOB_STATES, State
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.engine.systems import SYSTEMS
from garage.engine.words import duration_words
from garage.models import Membership


@dataclass(frozen=True)
class Neighbour:
    """The other end of a link, and the wait or the cure between; `vehicle` if it is another."""

    link: int
    url: str
    title: str
    vehicle: str
    stripe: str
    word: str
    wait: str
    cure: str
    why: str
    ready: str
    by_order: bool = False
    cut: str = ""


@dataclass(frozen=True)
class StepLine:
    """A step that the job can take now; `asks` when it wants to be told something first."""

    label: str
    url: str
    kind: str = "plain"
    asks: bool = False


@dataclass(frozen=True)
class KeptStation:
    """A station that the car keeps from one job until another."""

    pk: int
    station: str
    first: str
    first_url: str
    last: str
    last_url: str


@dataclass(frozen=True)
class JobPage:
    """`job` is the row, the rest is told; `blocks` say why it cannot be begun yet."""

    job: Job
    card: JobCard
    cautions: tuple[str, ...]
    standing: str
    urgent: str
    blocks: tuple[str, ...]
    waits_for: tuple[Neighbour, ...]
    waiting: tuple[Neighbour, ...]
    waits: JobWaits
    points: tuple[PointLine, ...]
    kept: tuple[KeptStation, ...]
    log: tuple[LogLine, ...]
    found: tuple[JobCard, ...]
    stations: tuple[str, ...]
    systems: tuple[str, ...]
    recipe: str
    kinds: tuple[str, ...]
    spent: str
    left: str
    finished: str
    signed: str
    may_sign: bool
    waits_for_eyes: str
    loans: tuple[SkillLoan, ...] = ()

    @property
    def steps(self) -> tuple[StepLine, ...]:
        """One tap each, the likeliest first; what is refused now is not offered."""
        taps: list[tuple[str, str]] = []
        if JOB_STATES.allows("start", self.job.state) and not self.blocks:
            taps = [("start", "Start"), ("finish", "Done already")]
        elif self.job.state == State.IN_HAND:
            taps = [("finish", "Finish"), ("stop", "Put it down")]
        elif self.job.state == State.HELD:
            taps = [("release", "Back to work")]
        elif self.job.needs_signing and self.may_sign:
            taps = [("sign", "I looked: sign it off")]
        # Where the work waits for eyes, signing is the likeliest, and its button stands below.
        main = not self.waits_for_signature or self.job.needs_signing
        return tuple(
            StepLine(label, self._url(step), "plain" if number or not main else "main")
            for number, (step, label) in enumerate(taps)
        )

    @property
    def found_url(self) -> str:
        """Something is seen while hands are on the car, or just after."""
        begun = self.job.state not in (State.OPEN, State.DROPPED)
        return reverse("job_found", args=[self.job.pk]) if begun else ""

    @property
    def more_steps(self) -> tuple[StepLine, ...]:
        """Those that want a word: why, who else, when it really was."""
        asked = {
            "start": "Start with others, or earlier than now",
            "stop": "Put down earlier, or say what is left",
            "finish": "Finished earlier than now",
            "sign": "Say who looked, and sign it off",
            "hold": "Hold it",
            "reopen": "Open it again",
            "drop": "Drop it",
        }
        return tuple(
            StepLine(label, self._url(step), asks=True)
            for step, label in asked.items()
            if JOB_STATES.allows(step, self.job.state) and not (step in ("start", "finish") and self.blocks)
        )

    @property
    def waits_for_signature(self) -> bool:
        """The work is over and the last word is that of a second pair of eyes."""
        held = self.job.state == State.HELD and self.job.finished_at is not None
        return held or self.job.needs_signing

    def _url(self, step: str) -> str:
        return reverse(f"job_{step}", args=[self.job.pk])


def load_page(job: Job, me: Membership, at: datetime) -> JobPage:
    """A fixed number of queries, however much hangs on the job."""
    work = load_work(me.garage, at)
    spans = list(Span.objects.filter(job=job).select_related("by__person").prefetch_related(with_people("crew")))
    eyes = list(Membership.objects.visible_to(me).hands().select_related("person"))
    workers = {member.pk for span in spans for member in span.crew.all()}
    points = HoldPoint.objects.filter(job=job).select_related("job", "signed_by__person")
    links = Link.objects.of(job).select_related("before__vehicle", "after__vehicle")
    before = [link for link in links if link.after_id == job.pk]
    after = [link for link in links if link.before_id == job.pk]
    uses = list(JobStation.objects.filter(job=job).select_related("station"))
    open_now = job.pk in work.jobs
    return JobPage(
        job=job,
        card=card_of(job, work) if open_now else done_card(job, at, work.curing.get(job.pk)),
        cautions=tuple(
            caution.text for caution in cautions_for(job.systems, job.kinds, [use.station.slug for use in uses])
        ),
        standing=standing_caution(),
        urgent=_urgent(job, work),
        blocks=tuple(block.sentence for block in work.blocks(job.pk)) if open_now else (),
        waits_for=tuple(_neighbour(link, link.before, work) for link in before),
        waiting=tuple(_neighbour(link, link.after, work) for link in after),
        waits=job_waits(job, work, links),
        points=tuple(point_lines(points, me, eyes, workers, at)),
        kept=_kept(job),
        log=tuple(log_lines(job, spans, at)),
        found=tuple(_found(job, work, at)),
        stations=tuple(f"{use.station} × {use.units}" if use.units > 1 else str(use.station) for use in uses),
        systems=tuple(SYSTEMS[slug].label for slug in job.systems if slug in SYSTEMS),
        recipe=recipe_title(job.recipe),
        kinds=tuple(KINDS[slug].label for slug in job.kinds if slug in KINDS),
        spent=_spent(spans, at),
        left=duration_words(work.left(job.pk)) if open_now else "",
        finished=clock_words(job.finished_at, at) if job.finished_at else "",
        signed=signed_words(job, at),
        may_sign=may_sign(me, eyes, workers),
        waits_for_eyes=eyes_words(eyes, workers),
        loans=tuple(job.skill_loans.select_related("member__person", "lent_by__person")),
    )


def _urgent(job: Job, work: Work) -> str:
    """Whose urgency the job carries, and through what."""
    found = work.urgency.get(job.pk)
    if found is None or found.inherited_from is None:
        return ""
    source, through = work.jobs[found.inherited_from], work.jobs[found.next_on_path]
    by_way = "" if through == source else f", by way of {through}"
    return f"As urgent as {source} ({source.rank}), which waits for it{by_way}."


def _neighbour(link: Link, other: Job, work: Work) -> Neighbour:
    finished = link.before.state in FINISHED_STATES
    ready = work.times.ready_at(wait_of(link), link.before) if finished else None
    cure = cure_words(link, work)
    typed = link.wait_minutes and not (cure and link.cure_stage)
    return Neighbour(
        link=link.pk,
        url=reverse("job_page", args=[other.pk]),
        title=other.title,
        vehicle=other.vehicle.name if link.before.vehicle_id != link.after.vehicle_id else "",
        stripe=STRIPES[State(other.state)],
        word=other.get_state_display(),
        wait=duration_words(link.wait_minutes) if typed else "",
        cure=cure,
        why=link.why,
        by_order=link.by_order,
        cut=link.cut_because,
        ready=ready_words(ready, work.at) if ready and ready > work.at else "",
    )


def _kept(job: Job) -> tuple[KeptStation, ...]:
    rows = StationHold.objects.of(job).select_related("station", "first", "last")
    return tuple(
        KeptStation(
            row.pk,
            str(row.station),
            row.first.title,
            reverse("job_page", args=[row.first_id]),
            row.last.title,
            reverse("job_page", args=[row.last_id]),
        )
        for row in rows
    )


def _found(job: Job, work: Work, at: datetime) -> list[JobCard]:
    """Jobs that were opened by what was found while this one was done."""
    rows = Job.objects.found_in(job).select_related("vehicle", "skill", "signed_by__person")
    return [card_of(row, work) if row.pk in work.jobs else done_card(row, at) for row in rows]


def _spent(spans: Iterable[Span], at: datetime) -> str:
    worked = [span for span in spans if span.state == State.IN_HAND]
    if not worked:
        return ""
    minutes = sum(((span.until_at or at) - span.from_at).total_seconds() for span in worked) // 60
    return duration_words(int(minutes))


def crew_words(job: Job) -> str:
    """Who has the job in hand now."""
    span = Span.objects.filter(job=job).running().prefetch_related(with_people("crew")).first()
    return names(span.crew.all()) if span else ""
