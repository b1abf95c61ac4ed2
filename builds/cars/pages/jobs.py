"""A car's jobs: what is next in full, the rest a line a job, by the recipe that they came with."""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.stored import Stored
from builds.plan.facts.stored import shown_to
from builds.plan.pages.not_yet import not_yet
from builds.recipes.engine.parse import recipe_title
from builds.shop.pages.cures import CureClock, running_cures
from builds.steps.pages.job_cards import JobList, jobs_of, offered_to
from builds.work.engine.again import MEASURE_AGAIN, MEASURES_AGAIN, TAKEN_AGAIN
from builds.work.engine.open_work import Work
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.engine.words import work_words
from garage.models import Membership, Vehicle

SHOWN = 4  # lines of a group, as it opens


@dataclass(frozen=True)
class JobGroup:
    """Jobs of one recipe, in working order; `opens` for the one that the next job is of."""

    title: str
    to_do: tuple[JobCard, ...]
    over: tuple[JobCard, ...]
    opens: bool

    @property
    def first(self) -> tuple[JobCard, ...]:
        return self.to_do[:SHOWN]

    @property
    def rest(self) -> tuple[JobCard, ...]:
        return self.to_do[SHOWN:]

    @property
    def holds(self) -> str:
        """`8 to do, 6 h, 5 over`."""
        hours = work_words(sum(card.left_minutes for card in self.to_do))
        said = [f"{len(self.to_do)} to do, {hours}"] if self.to_do else []
        return ", ".join([*said, *([f"{len(self.over)} over"] if self.over else [])])


@dataclass(frozen=True)
class CarJobs:
    """`now` is what is in hand, else what comes next."""

    now: tuple[JobCard, ...]
    groups: tuple[JobGroup, ...]
    curing: tuple[CureClock, ...]
    count: int
    left: str


def car_jobs(vehicle: Vehicle, me: Membership, work: Work) -> CarJobs:
    """As whoever reads it can begin them."""
    plan = shown_to(me)
    jobs = _with_parts(jobs_of(vehicle, work, hands={me.pk}), plan, work.at)
    now = _now(jobs, plan, work.at)
    return CarJobs(
        tuple(offered_to(me, card, work) for card in now),
        tuple(_groups(jobs, now)),
        tuple(clock for clock in running_cures(work) if clock.job.vehicle_id == vehicle.pk),
        len(jobs.to_do),
        work_words(sum(card.left_minutes for card in jobs.to_do)),
    )


def _with_parts(jobs: JobList, plan: Stored | None, at: datetime) -> JobList:
    """A job that could be begun but for a part that is still to come says so, as Today does."""
    if plan is None:
        return jobs
    planned = {card.pk: id_of("job", card.pk) for card in jobs.to_do if card.steps and not card.in_hand}
    notes = {pk: not_yet(plan, job, at) for pk, job in planned.items() if job in plan.jobs}
    return replace(jobs, to_do=tuple(replace(card, note=notes.get(card.pk) or card.note) for card in jobs.to_do))


def _now(jobs: JobList, plan: Stored | None, at: datetime) -> tuple[JobCard, ...]:
    """What is in hand, else what the plan begins first; without a plan, what can be begun next."""
    in_hand = tuple(card for card in jobs.to_do if card.in_hand)
    if in_hand:
        return in_hand
    placed = plan.placed if plan else {}
    on_plan = [card for card in jobs.to_do if id_of("job", card.pk) in placed]
    if not plan or not on_plan:
        return tuple(card for card in jobs.to_do if card.steps)[:1]
    first = min(on_plan, key=lambda card: placed[id_of("job", card.pk)].start)
    return (_on_plan(first, plan, at),)


def _on_plan(card: JobCard, plan: Stored, at: datetime) -> JobCard:
    """With the hour that it is planned for, where that is still to come."""
    start = plan.clock.moment(plan.placed[id_of("job", card.pk)].start)
    return card if start <= at else replace(card, kicker=f"planned for {clock_words(start, at)}")


def _groups(jobs: JobList, now: tuple[JobCard, ...]) -> list[JobGroup]:
    """As their first open jobs come in working order, those with nothing to do last."""
    to_do: dict[str, list[JobCard]] = defaultdict(list)
    over: dict[str, list[JobCard]] = defaultdict(list)
    shown = {card.pk for card in now}
    for card in jobs.to_do:
        if card.pk not in shown:
            to_do[_together(card)].append(card)
    for card in jobs.over:
        over[_together(card)].append(card)
    opens = _together(now[0]) if now else next(iter(to_do), None)
    return [
        JobGroup(_title(recipe), tuple(to_do[recipe]), tuple(over[recipe]), recipe == opens)
        for recipe in dict.fromkeys([*to_do, *over])
    ]


def _together(card: JobCard) -> str:
    """Its recipe; all that measure again are of one."""
    return MEASURE_AGAIN if card.recipe in MEASURES_AGAIN else card.recipe


def _title(recipe: str) -> str:
    if not recipe:
        return "Written down by hand"
    return TAKEN_AGAIN.get(recipe) or recipe_title(recipe)
