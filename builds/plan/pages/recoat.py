"""Coats that the plan leaves too long: the next one comes after the recoat window has closed."""

from datetime import datetime

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.stored import Stored
from builds.shop.pages.cures import closes_at
from builds.work.engine.working_order import Wait


def shut_windows(plan: Stored, rows: PlanRows) -> dict[str, str]:
    """What to say at the job (name) that would go on too late."""
    found = {}
    for joint in rows.work.links:
        name = name_of("job", joint.after)
        since = _ends(joint, plan, rows)
        if name not in plan.placed or since is None:
            continue
        closes = closes_at(joint, since, rows.work.times)
        if closes and plan.clock.moment(plan.placed[name].start) >= closes:
            coat = rows.work.before[joint.before]
            found[name] = f"Sand {coat} first: its recoat window closes {plan.clock.said(closes)}"
    return found


def _ends(joint: Wait, plan: Stored, rows: PlanRows) -> datetime | None:
    """When the coat below is finished: by the plan, or as it was."""
    before = plan.placed.get(name_of("job", joint.before))
    if joint.before in rows.work.jobs:
        return plan.clock.moment(before.end) if before else None
    return rows.work.before[joint.before].finished_at
