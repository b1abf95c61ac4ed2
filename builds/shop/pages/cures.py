"""What cures now: how far it has come, when it is ready, and until when the next coat goes on."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from builds.cure.engine import Product, Stage, cold_minutes
from builds.steps.pages.job_cards import done_card
from builds.work.engine.blocks import NOT_IN_SIGHT
from builds.work.engine.cure_times import CureTimes
from builds.work.engine.open_work import RunningCure, Work
from builds.work.engine.working_order import Wait
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.engine.words import duration_words

CLOSES_SOON = timedelta(days=2)


@dataclass(frozen=True)
class CureClock:
    """A wait that runs behind finished `job` until `follower` may go on, or what it has become.

    `ready_at` is None where it is too cold to say. `progress` is 0 to 1; a plain wait has no `product`.
    """

    job: Job
    follower: Job
    product: str
    stage: str
    ready_at: datetime | None
    progress: float
    sentence: str
    card: JobCard
    sand: bool = False

    @property
    def percent(self) -> int:
        return int(100 * self.progress)


def running_cures(work: Work) -> list[CureClock]:
    """Soonest first: cures and waits that run, and coats that must soon have their next one."""
    clocks: dict[tuple[int, str, str], CureClock] = {}
    for wait in work.links:
        before = work.before[wait.before]
        if before.state not in FINISHED_STATES:
            continue
        ready = work.times.ready_at(wait, before)
        if ready is None:
            continue
        clock = _clock(wait, before, ready, work)
        key = (before.pk, wait.cure, wait.stage)
        if clock and (key not in clocks or ready > (clocks[key].ready_at or NOT_IN_SIGHT)):
            clocks[key] = clock
    return sorted(clocks.values(), key=lambda clock: clock.ready_at or NOT_IN_SIGHT)


def closes_at(wait: Wait, since: datetime, times: CureTimes) -> datetime | None:
    """Until when the next coat goes on without sanding; None where the product sets no end."""
    cure = times.cure_of(wait)
    if cure is None or cure[1] != Stage.RECOAT_FROM or not cure[0].has(Stage.RECOAT_TO):
        return None
    closes = times.reached(cure[0], Stage.RECOAT_TO, since)
    return None if closes == NOT_IN_SIGHT else closes


def _clock(wait: Wait, before: Job, ready: datetime, work: Work) -> CureClock | None:
    at, closes = work.at, closes_at(wait, before.finished_at, work.times)
    shut = closes is not None and at >= closes
    if ready <= at and (closes is None or (not shut and closes - at > CLOSES_SOON)):
        return None
    cure, follower = work.times.cure_of(wait), work.jobs[wait.after]
    sentences = [_window_words(ready, closes, at)]
    if cure:
        sentences.append(_cold_words(*cure, before, work))
    return CureClock(
        job=before,
        follower=follower,
        product=cure[0].name if cure else "",
        stage=cure[1].words if cure else "",
        ready_at=None if ready == NOT_IN_SIGHT else ready,
        progress=work.times.come(wait, before),
        sentence=" ".join(sentence for sentence in sentences if sentence),
        card=_card(wait, before, ready, closes, work),
        sand=closes is not None and (shut or closes <= ready),
    )


def _card(wait: Wait, before: Job, ready: datetime, closes: datetime | None, work: Work) -> JobCard:
    """The tag of what cures; once it is ready, the tag of the job and what is to do."""
    follower = work.jobs[wait.after]
    if ready > work.at:
        return done_card(before, work.at, RunningCure(ready, wait.why, follower.title))
    shut = closes is not None and closes <= work.at
    return replace(
        done_card(before, work.at),
        ready="sand first" if shut else "coat it now",
        meta=(f"then {follower}",),
    )


def _window_words(ready: datetime, closes: datetime | None, at: datetime) -> str:
    if ready == NOT_IN_SIGHT:
        return "Too cold to cure in all the time that is looked ahead: warm the shop."
    if closes is None:
        return ""
    when = clock_words(closes, at)
    if at >= closes:
        return f"The recoat window has closed: sand first, then coat; it closed {when}."
    if closes <= ready:
        return f"The next coat may go on only until {when}, before it is ready: sand first."
    return f"The next coat goes on without sanding until {when}."


def _cold_words(product: Product, stage: Stage, before: Job, work: Work) -> str:
    """What lay below its minimum may never become hard."""
    shop = work.times.shop
    since, now = shop.minute(before.finished_at), shop.minute(work.at)
    if now <= since:
        return ""
    cold = round(cold_minutes(product, stage, since, now, shop.course))
    if not cold:
        return ""
    return f"It was too cold to cure for {duration_words(cold)} so far: see on the data sheet what that does to it."
