"""Who looks at the planner's jobs before what waits for them starts, and when that can be."""

from collections.abc import Mapping
from dataclasses import replace

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine import why
from builds.plan.engine.ids import id_of
from builds.plan.facts.nights import night_of
from builds.plan.facts.rows import PlanRows
from builds.planner.fields import Windows
from builds.planner.problem import Job
from builds.steps.facts.looks import eyes_of
from builds.work.models.job import Job as JobRow


def with_looks(job: Job, row: JobRow, rows: PlanRows, clock: PlanClock, hours: Mapping[str, Windows]) -> Job:
    """The job with the people one of whom looks at it; one that waits for that alone is over once one is in.

    Nobody is waited for of whom no hours are known, nor where everybody else has had his hands on it.
    """
    if not rows.work.unsigned.get(row.pk) or night_of(row, rows):
        return job
    called = {person: name for person, name in _eyes(row, rows) if hours.get(person)}
    if row.finished_at is None:
        return replace(job, eyes=tuple(called))
    seen = {person: max(0, hours[person][0][0]) for person in called}
    first = min(seen.values(), default=0)
    who = [called[person] for person, slot in seen.items() if slot == first]
    said = why.looks_at_it(who, first, clock) if first else None
    over = replace(job, work=0, hands=0, skill=None, crew=None, windows=None, uses={}, pinned=None, clears=0)
    return replace(over, earliest=first, waits_for=said)


def _eyes(job: JobRow, rows: PlanRows) -> list[tuple[str, str]]:
    """Those (ids, with their names) who may say that they looked, and had no hands on what is looked at."""
    hands = rows.hands.get(job.pk, frozenset())
    members = (member for member in rows.members if member.may_sign and eyes_of(member).here)
    return [(id_of("person", member.pk), member.name) for member in members if member.pk not in hands]
