"""Coats that the plan leaves too long: the next one comes after the recoat window has closed."""

from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.rows import PlanRows
from builds.shop.pages.cures import closes_at
from builds.work.engine.working_order import Wait


def shut_windows(plan: TimedPlan, rows: PlanRows) -> dict[str, str]:
    """What to say at the job (its id) that would go on too late."""
    said = {}
    for wait in rows.work.links:
        job = id_of("job", wait.after)
        since = _coated_at(wait, plan, rows)
        if job not in plan.placed or since is None:
            continue
        closes = closes_at(wait, since, rows.work.times)
        if closes and plan.clock.moment(plan.placed[job].start) >= closes:
            coat = rows.work.before[wait.before]
            said[job] = f"Sand “{coat}” first: its recoat window closes {plan.clock.said(closes)}"
    return said


def _coated_at(wait: Wait, plan: TimedPlan, rows: PlanRows) -> datetime | None:
    """When the coat below is finished: by the plan, or as it was."""
    before = plan.placed.get(id_of("job", wait.before))
    if wait.before in rows.work.jobs:
        return plan.clock.moment(before.end) if before else None
    return rows.work.before[wait.before].finished_at
