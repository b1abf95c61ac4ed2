"""All that a job's page shows."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.jobs.facts import JobRows, job_rows
from builds.jobs.pages.comments import CommentLine, comment_lines
from builds.jobs.pages.order import KeptStation, Neighbour, kept_station, neighbour, order_words
from builds.jobs.pages.steps import StepLine, at_hold_point, found_url, one_tap_steps, told_steps
from builds.jobs.pages.waits import JobWaits, job_waits
from builds.plan.engine.why import too_few_people
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.pages.amiss import amiss_sentences
from builds.recipes.engine.parse import recipe_title
from builds.steps.engine.cautions import cautions_for, standing_caution
from builds.steps.engine.looks import Eyes
from builds.steps.engine.part_said import part_said
from builds.steps.engine.said_less import less_words
from builds.steps.pages.job_cards import card_of, done_card, time_words
from builds.steps.pages.looks import LookOffer, leaves_look, look_offer, signed_words
from builds.steps.pages.time_log import LogLine, PointLine, log_lines, point_lines
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.engine.cure_unsaid import UNSAID, cure_unsaid
from builds.work.engine.half_done import may_split
from builds.work.engine.open_work import Work
from builds.work.facts.room_now import JobUse, room_in
from builds.work.models.job import Job
from builds.work.models.skill_loan import SkillLoan
from builds.work.models.span import Span
from builds.work.models.states import BEGINNABLE, State
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.engine.systems import SYSTEMS
from garage.engine.words import work_words
from garage.models import Membership


@dataclass(frozen=True)
class JobPage:
    """`blocks` say why it cannot be begun yet, `too_few` that it takes more people than work here.

    `steps` want one tap, `more_steps` a word first.

    `likely` are the kinds of work that nobody has said outright. `amiss` says what was read out of order at its end,
    which whoever signs reads first.
    `may_look` where the reader can sign it, `may_leave` where he has it in hand.
    `waits_for_eyes` says who has to look at it, where it waits for that and not for the reader.
    """

    card: JobCard
    stop: str
    amiss: str
    steps: tuple[StepLine, ...]
    more_steps: tuple[StepLine, ...]
    found_url: str
    cautions: tuple[str, ...]
    standing: str
    urgent: str
    blocks: tuple[str, ...]
    too_few: str
    waits_for: tuple[Neighbour, ...]
    waiting: tuple[Neighbour, ...]
    does_not_wait_for: tuple[Neighbour, ...]
    does_not_wait: tuple[Neighbour, ...]
    waits: JobWaits
    points: tuple[PointLine, ...]
    kept: tuple[KeptStation, ...]
    log: tuple[LogLine, ...]
    opened: tuple[JobCard, ...]
    stations: tuple[str, ...]
    systems: tuple[str, ...]
    recipe: str
    kinds: tuple[str, ...]
    likely: tuple[str, ...]
    less: str
    may_split: bool
    spent: str
    left: str
    finished: str
    signed: str
    may_look: bool
    may_leave: bool
    waits_for_eyes: str
    sign_in: tuple[str, str] | None
    at_hold_point: bool
    loans: tuple[SkillLoan, ...]
    cure_unsaid: str
    part_named: str
    comments: tuple[CommentLine, ...]

    @property
    def order(self) -> str:
        return order_words(len(self.waits_for), len(self.waiting))


def load_page(job: Job, me: Membership, people: list[Eyes], at: datetime) -> JobPage:
    """A fixed number of queries, however much hangs on the job. `people` are all hands."""
    rows = job_rows(job, me, people, at)
    work, offer = rows.work, look_offer(me, rows.people, rows.workers)
    blocks = tuple(block.sentence for block in work.blocks(job.pk)) if rows.is_open else ()
    clash, stop = _in_the_way(job, me, work)
    barred = {"blocked": bool(blocks), "clash": bool(clash)}
    kinds = tuple(KINDS[slug].label for slug in job.kinds if slug in KINDS)
    return JobPage(
        card=_card(rows, at, clash),
        stop=stop,
        amiss=amiss_sentences(rows.amiss, me.garage),
        may_look=rows.wants_look and offer.mine,
        may_leave=me in work.crew(job.pk),
        steps=_taps(rows, offer, me, **barred),
        more_steps=told_steps(job, me, writes=offer.writes, **barred),
        found_url=found_url(job),
        cautions=_cautions(rows),
        standing=standing_caution(),
        urgent=_urgent(job, work),
        blocks=(*blocks, *filter(None, [clash])),
        too_few=_too_few(rows, at),
        waits_for=tuple(neighbour(link, link.before, work) for link in rows.ahead if not link.cut_because),
        waiting=tuple(neighbour(link, link.after, work) for link in rows.behind if not link.cut_because),
        does_not_wait_for=tuple(neighbour(link, link.before, work) for link in rows.ahead if link.cut_because),
        does_not_wait=tuple(neighbour(link, link.after, work) for link in rows.behind if link.cut_because),
        waits=job_waits(rows),
        points=tuple(point_lines(rows.points, offer, at)),
        kept=tuple(map(kept_station, rows.kept)),
        log=tuple(log_lines(job, rows.spans, at, rows.cuts)),
        opened=tuple(_found(opened, work, at) for opened in rows.opened),
        stations=tuple(map(_station, rows.stations)),
        systems=tuple(SYSTEMS[slug].label for slug in job.systems if slug in SYSTEMS),
        recipe="" if job.recipe in TAKEN_AGAIN else recipe_title(job.recipe),
        kinds=kinds,
        may_split=may_split(job),
        less="" if rows.is_open else less_words(job.not_opened, job.not_touched),
        likely=kinds if job.kinds_likely and rows.is_open else (),
        spent=_spent(rows.spans, at),
        left=time_words(job, work) if rows.is_open and not job.looked_for else "",
        finished=clock_words(job.finished_at, at) if job.finished_at else "",
        signed=signed_words(job, at),
        waits_for_eyes=offer.waits if rows.wants_look and not offer.mine else "",
        sign_in=offer.sign_in if rows.wants_look else None,
        at_hold_point=at_hold_point(job),
        loans=tuple(rows.loans),
        comments=comment_lines(rows.comments, me, at),
        cure_unsaid=_cure_unsaid(rows),
        part_named=named.name if rows.is_open and (named := part_said(job.title)) else "",
    )


def _taps(rows: JobRows, offer: LookOffer, me: Membership, **barred: bool) -> tuple[StepLine, ...]:
    return one_tap_steps(
        rows.job,
        may_sign=rows.wants_look and offer.mine,
        may_look_after=offer.mine and me.pk not in rows.workers and (leaves_look(rows.job) or bool(rows.points)),
        wants_parts=bool(rows.needs),
        **barred,
    )


def _cautions(rows: JobRows) -> tuple[str, ...]:
    stations = [use.slug for use in rows.stations]
    return tuple(caution.text for caution in cautions_for(rows.job.systems, rows.job.kinds, stations))


def _in_the_way(job: Job, me: Membership, work: Work) -> tuple[str, str]:
    """What a start clashes with, and why what is in hand stops."""
    if job.state not in (*BEGINNABLE, State.IN_HAND):
        return "", ""
    room = room_in(me.garage, work)
    return room.clash(job, {me.pk}) if job.state in BEGINNABLE else "", room.stops().get(job.pk, "")


def _card(rows: JobRows, at: datetime, clash: str) -> JobCard:
    job, work = rows.job, rows.work
    if rows.is_open:
        return card_of(job, work, clash=clash)
    return done_card(job, at, work.curing.get(job.pk), to_sign=rows.wants_look)


def _cure_unsaid(rows: JobRows) -> str:
    """Of work by hand; a recipe has its waits."""
    waits = ((link.wait_minutes, link.cure) for link in rows.behind if not (link.cut_at or link.by_order))
    asks = rows.is_open and not rows.job.recipe and cure_unsaid(rows.job.kinds, waits)
    return UNSAID if asks else ""


def _too_few(rows: JobRows, at: datetime) -> str:
    """At home; who goes to an event is the plan's to say."""
    job, people = rows.job, len(rows.people)
    asks = rows.is_open and job.state != State.IN_HAND and not job.overnight(at)
    return too_few_people(job.hands, people, here=people) if asks and job.hands > people else ""


def _found(job: Job, work: Work, at: datetime) -> JobCard:
    return card_of(job, work) if job.pk in work.jobs else done_card(job, at)


def _urgent(job: Job, work: Work) -> str:
    """Whose urgency the job carries, and through what."""
    urgency = work.urgency.get(job.pk)
    if urgency is None or urgency.inherited_from is None:
        return ""
    source, through = work.jobs[urgency.inherited_from], work.jobs[urgency.next_on_path]
    by_way = "" if through == source else f", by way of “{through}”"
    return f"As urgent as “{source}” ({source.rank}), which waits for it{by_way}."


def _station(use: JobUse) -> str:
    return f"{use.name} × {use.units}" if use.units > 1 else use.name


def _spent(spans: Iterable[Span], at: datetime) -> str:
    worked = [span for span in spans if span.state == State.IN_HAND]
    if not worked:
        return ""
    minutes = sum(((span.until_at or at) - span.from_at).total_seconds() for span in worked) // 60
    return work_words(int(minutes))
