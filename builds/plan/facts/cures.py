"""The waits that run on the plan: those between planned jobs, and those behind finished work."""

from builds.plan.engine.ids import id_of
from builds.plan.engine.sessions import PlannedCure, cures_between
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.rows import PlanRows


def cures(plan: TimedPlan, rows: PlanRows) -> list[PlannedCure]:
    """Each once, in order of start."""
    once: dict[tuple[str, int], PlannedCure] = {}
    for cure in cures_between(plan):
        once.setdefault((cure.before, cure.ready), cure)
    for cure in _running(plan, rows):
        once[cure.before, cure.ready] = cure
    return sorted(once.values(), key=lambda cure: (cure.start, cure.ready))


def _running(plan: TimedPlan, rows: PlanRows) -> list[PlannedCure]:
    """Behind finished work, for jobs that are still open."""
    running = []
    for pk in rows.work.jobs:
        for wait in rows.work.waits.get(pk, ()):
            if wait.before in rows.work.jobs:
                continue
            done = rows.work.before[wait.before]
            moment = rows.work.times.ready_at(wait, done)
            if moment and moment > rows.at:
                start = plan.clock.last_until(done.finished_at)
                ready = min(plan.clock.first_from(moment), plan.problem.slots + 1)
                running.append(PlannedCure(id_of("job", done.pk), id_of("job", pk), start, ready, wait.why or "wait"))
    return running
