"""Making the garage's plan, keeping it, and taking one that was only tried."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.engine.planner.check import faults
from builds.engine.planner.plan import Plan as Answer
from builds.engine.planner.plan import Progress
from builds.engine.planner.problem import Problem, ProblemError
from builds.engine.planner.search import FaultyPlan, plan
from builds.loaders.plan_basis import Basis
from builds.loaders.plan_clock import PlanClock
from builds.loaders.plan_stored import answer_table, problem_table, shown
from builds.loaders.problem import build_problem
from builds.models import Plan
from garage.actions.refused import Refused
from garage.models import Garage, Membership

KEPT = 30


@dataclass(frozen=True)
class Draft:
    """A problem with what it was made from, and the clock that turns its slots into moments."""

    problem: Problem
    basis: Basis
    clock: PlanClock


def draft(garage: Garage, at: datetime) -> Draft:
    """What there is to plan at a moment; the plan on the wall is kept to where it can be.

    Raises Refused with one sentence when the rows do not hang together.
    """
    zone = ZoneInfo(garage.time_zone)
    clock, before = PlanClock.from_moment(at, zone), shown(garage)
    try:
        problem, basis = build_problem(garage, at, before.promises(clock) if before else ())
    except ProblemError as error:
        raise Refused(str(error)) from error
    return Draft(problem, basis, clock)


def answer(
    drawn: Draft,
    *,
    seconds: float = 0,
    seed: int = 1,
    progress: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Answer:
    """The planner's answer, with the reasons that only the garage knows in place of its own."""
    found = plan(
        drawn.problem,
        seconds=seconds,
        seed=seed,
        progress=progress,
        stop=stop,
        when=drawn.clock.words,
    )
    refused = drawn.basis.refused
    unplaced = (replace(row, why=refused.get(row.id, row.why)) for row in found.unplaced)
    return replace(found, unplaced=tuple(unplaced))


@transaction.atomic
def keep(
    garage: Garage,
    drawn: Draft,
    found: Answer,
    *,
    by: Membership | None,
    at: datetime,
    use: str = Plan.Use.SHOWN,
) -> Plan:
    """Store a plan that has passed the checker; raises FaultyPlan rather than keep another."""
    wrong = faults(drawn.problem, found)
    if wrong:
        raise FaultyPlan(" ".join(wrong))
    row = Plan.objects.create(
        garage=garage,
        made_at=at,
        made_by=by,
        use=use,
        problem=problem_table(drawn.problem),
        answer=answer_table(found),
        made_from=drawn.basis.table(),
        seconds=found.seconds,
        tried=found.tried,
    )
    newest = Plan.objects.in_garage(garage).order_by("-made_at", "-pk")[:KEPT]
    Plan.objects.in_garage(garage).exclude(pk__in=[plan.pk for plan in newest.only("pk")]).delete()
    return row


def make_plan(
    garage: Garage, *, by: Membership | None, at: datetime, seconds: float = 0, seed: int = 1
) -> Plan:
    """Plan the garage as it stands and put the plan on the wall. Raises Refused."""
    drawn = draft(garage, at)
    return keep(garage, drawn, answer(drawn, seconds=seconds, seed=seed), by=by, at=at)


@transaction.atomic
def take(row: Plan, *, by: Membership, at: datetime) -> None:
    """Put a plan that was found by a search, and only offered, on the wall."""
    if row.use != Plan.Use.TRIED:
        raise Refused("This plan is on the wall already.")
    row.use, row.made_at, row.made_by = Plan.Use.SHOWN, at, by
    row.save(update_fields=["use", "made_at", "made_by"])
