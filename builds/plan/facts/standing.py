"""Whether the plan on the wall is still that of the garage."""

from datetime import datetime

from builds.plan.engine.ids import id_of, is_fact
from builds.plan.engine.packed import packed
from builds.plan.engine.stored import Stored
from builds.plan.facts.problem import build_problem
from builds.plan.models import Plan
from builds.planner.problem import ProblemError
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Garage


def holds(garage: Garage, at: datetime) -> bool:
    """Nothing was written since the plan was last found true, and the clock has not left it behind; one query."""
    standing = Plan.objects.in_garage(garage).shown().values_list("writes", "stands_until").first()
    if standing is None:
        return False
    writes, until = standing
    return writes == garage.writes and until is not None and at < until


def same_facts(plan: Stored, garage: Garage) -> bool:
    """Whether today's rows, seen from the moment the plan was made, would give the planner the same problem.

    One query where jobs came, went, were started or put down, as most writes have it.
    """
    if _open_jobs(garage) != {job.id: job.started for job in plan.problem.jobs if not is_fact(job.id)}:
        return False
    try:
        problem, _ = build_problem(garage, plan.as_of)
    except ProblemError:
        return False
    return packed(problem) == {**plan.row.problem, "before": {}}


def _open_jobs(garage: Garage) -> dict[str, bool]:
    """By their ids in a problem, whether they are in hand."""
    rows = Job.objects.in_garage(garage).open().values_list("pk", "state")
    return {id_of("job", pk): state == State.IN_HAND for pk, state in rows}
