"""Until when parts may come before their cars are late, found by planning again and kept beside the plan."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from django.db import transaction

from builds.needs.facts.wants import wants_of
from builds.odds.last_day import last_day
from builds.plan.actions.time_left import out_of_time
from builds.plan.engine.ids import id_of
from builds.plan.engine.stored import Stored
from builds.plan.facts.last_days import kept_beside
from builds.plan.facts.stored import read
from builds.plan.models import Plan
from builds.planner.problem import Problem
from builds.work.facts.work import load_work
from garage.engine.presence import wall_moment

SECONDS = 2.0  # in one go of the worker, so that the odds and whatever else waits have their turn


def find_last_days(plan: int, *, seconds: float = SECONDS) -> bool:
    """Have it be kept beside that plan (pk) until when parts may come, of all wants that no shelf has whole.

    What is begun soonest is worked out first, as far as the time goes: whether anything is left. Nothing
    where the plan is on the wall no more. Not in a transaction: planning takes its time.
    """
    row = Plan.objects.filter(pk=plan).select_related("garage").first()
    if row is None or Plan.objects.in_garage(row.garage).shown().first() != row:
        return False
    stored = read(row, row.garage)
    new = kept_beside(stored).yet_to_find(wants_of(load_work(row.garage, stored.as_of)))
    found = dict(_found(stored, sorted(new, key=lambda pk: _starts(stored, pk)), seconds))
    if found:
        _keep(plan, found)
    return len(found) < len(new)


@transaction.atomic
def _keep(plan: int, last_days: Mapping[int, date | None]) -> None:
    """Beside what others found meanwhile; nothing where the plan is gone."""
    row = Plan.objects.select_for_update(no_key=True).only("last_days").filter(pk=plan).first()
    if row:
        kept: Mapping[str, Any] = row.last_days or {"asked": [], "days": {}}
        days = {str(pk): day.isoformat() for pk, day in last_days.items() if day}
        row.last_days = {"asked": sorted({*kept["asked"], *last_days}), "days": {**kept["days"], **days}}
        row.save(update_fields=["last_days"])


def _starts(plan: Stored, job: int) -> tuple[int, int]:
    placed = plan.placed.get(id_of("job", job))
    return (placed.start if placed else plan.problem.slots, job)


def _found(plan: Stored, jobs: list[int], seconds: float) -> Iterator[tuple[int, date | None]]:
    """One job after the other, for as long as there is time; no day of a plan that does not say when jobs open."""
    if "opens" not in plan.row.made_from:
        yield from ((pk, None) for pk in jobs)
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
