"""What moved since the last session began, and why it starts when it does now."""

from dataclasses import dataclass

from django.urls import reverse

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions_ahead import morning_after
from builds.plan.engine.timed_plan import TimedPlan
from builds.planner.plan import Placed
from builds.planner.problem import Promise
from garage.engine.words import listed_in_words


@dataclass(frozen=True)
class MovedJob:
    title: str
    url: str
    what: str
    why: str


def moves(plan: TimedPlan) -> list[MovedJob]:
    """Work that stands elsewhere, or with other people, than was promised when the last session began.

    A start that was due before this plan began and is later in the same evening has not moved: time has.
    """
    moved = []
    for was in plan.problem.before:
        job, now = plan.jobs.get(was.job), plan.placed.get(was.job)
        if job is None or (now is not None and _only_later(was, now, plan)):
            continue
        what = _difference(was, now, plan) if now else f"has no place, was {plan.clock.words(was.start)}"
        if what:
            why = plan.reasons[was.job].sentence if now else plan.unplaced[was.job].why
            moved.append(MovedJob(job.heading, reverse("job_page", args=[pk_of(was.job)]), what, why))
    return moved


def _only_later(was: Promise, now: Placed, plan: TimedPlan) -> bool:
    """By the same people, in the evening in which it was to start, which has begun."""
    if was.start >= 0 or set(now.people) != set(was.people):
        return False
    return plan.clock.moment(now.start) < morning_after(plan.clock.moment(was.start), plan.clock.zone)


def _difference(was: Promise, now: Placed, plan: TimedPlan) -> str:
    """`Wed 18:00 instead of Tue 18:00, by Ines`; empty when nothing moved."""
    said = []
    if now.start != was.start:
        said.append(f"{plan.clock.words(now.start)} instead of {plan.clock.words(was.start)}")
    if set(now.people) != set(was.people) and now.people:
        said.append(f"by {listed_in_words([plan.people[person] for person in now.people])}")
    return ", ".join(said)
