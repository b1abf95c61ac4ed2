"""Until when parts may come before their cars are late, found by planning again and kept beside the plan."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from django.db import transaction

from builds.needs.facts.wants import Wants
from builds.odds.last_day import last_day
from builds.plan.actions.time_left import out_of_time
from builds.plan.engine.ids import id_of
from builds.plan.engine.stored import Stored
from builds.plan.facts.last_days import days_of
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.planner.problem import Problem
from garage.engine.presence import wall_moment
from garage.models import Garage

NONE_YET: Mapping[str, Any] = {"asked": [], "days": {}}
SECONDS = 0.1  # a page waits hardly longer; what is left is worked out beside it, or when the next one asks


def with_last_days(garage: Garage, wants: Wants, *, seconds: float = SECONDS) -> dict[int, date]:
    """By job (pk) the last day on which its parts may come, of those wants that no shelf has whole.

    What is kept beside the plan is taken from there; the rest is worked out and kept, as far as the
    time goes. Not in a transaction: planning takes its time.
    """
    plan = shown(garage)
    return {} if plan is None else of_plan(plan, wants, seconds=seconds)


def of_plan(plan: Stored, wants: Wants, *, seconds: float = SECONDS) -> dict[int, date]:
    """As `with_last_days`, of a plan that was read already; two queries where there is something to keep."""
    kept = plan.row.last_days or NONE_YET
    waiting = {need.job_id for need in wants.needs if wants.standing[need.pk].state != "shelf"}
    new = sorted(waiting.difference(kept["asked"]), key=lambda pk: _starts(plan, pk))
    if new:
        last_days = dict(_found(plan, new, seconds))
        kept = plan.row.last_days = _with(kept, last_days)
        if last_days:
            _keep(plan.row.pk, last_days)
    return days_of(kept)


@transaction.atomic
def _keep(plan: int, last_days: Mapping[int, date | None]) -> None:
    """Beside what others found meanwhile; nothing where the plan is gone."""
    row = Plan.objects.select_for_update(no_key=True).only("last_days").filter(pk=plan).first()
    if row:
        row.last_days = _with(row.last_days or NONE_YET, last_days)
        row.save(update_fields=["last_days"])


def _with(kept: Mapping[str, Any], last_days: Mapping[int, date | None]) -> dict[str, Any]:
    days = {str(pk): day.isoformat() for pk, day in last_days.items() if day}
    return {"asked": sorted({*kept["asked"], *last_days}), "days": {**kept["days"], **days}}


def _starts(plan: Stored, job: int) -> tuple[int, int]:
    """What is begun soonest is worked out first."""
    placed = plan.placed.get(id_of("job", job))
    return (placed.start if placed else plan.problem.slots, job)


def _found(plan: Stored, jobs: list[int], seconds: float) -> Iterator[tuple[int, date | None]]:
    """One job after the other, for as long as there is time; none of a plan that does not say when jobs open."""
    if "opens" not in plan.row.made_from:
        return
    opens, over, days = plan.row.made_from["opens"], out_of_time(seconds), _days(plan)
    problem = _as_if_ordered(plan)
    for pk in jobs:
        if over():
            return
        job = id_of("job", pk)
        slot = last_day(problem, plan.answer, job, opens.get(job, 0), list(days))
        yield pk, None if slot is None else days[slot]


def _as_if_ordered(plan: Stored) -> Problem:
    """One part that nobody has ordered says nothing of the days of the others: as if it were there."""
    slots = plan.row.made_from.get("if_ordered", {})
    jobs = (
        replace(job, earliest=slots[job.id], waits_for=None) if job.id in slots else job for job in plan.problem.jobs
    )
    return replace(plan.problem, jobs=tuple(jobs))


def _days(plan: Stored) -> dict[int, date]:
    """By its first slot each day of the plan, today's by the slot that is now."""
    day, zone, days = plan.as_of.astimezone(plan.clock.zone).date(), plan.clock.zone, {}
    while (slot := plan.clock.first_from(wall_moment(day, 0, zone))) < plan.problem.slots:
        days[max(slot, 0)] = day
        day += timedelta(days=1)
    return days
