"""What a plan took the place of: which one, and when each car was to be ready by it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from builds.plan.engine.stored import Stored
from builds.planner.problem import Job


@dataclass(frozen=True)
class InsteadOf:
    """`ready` by the id of a car (aware): with what it must have before it leaves, or with all where it does not.

    None where some of that had no place. A car without such work is not there.
    """

    plan: int
    ready: Mapping[str, datetime | None]

    def table(self) -> dict[str, Any]:
        """The form in which the plan that came after stores it."""
        return {"plan": self.plan, "ready": {car: ready and ready.isoformat() for car, ready in self.ready.items()}}


def instead_of(before: Stored) -> InsteadOf:
    jobs = {car.id: [job.id for job in _before_it_leaves(before, car.id)] for car in before.problem.vehicles}
    return InsteadOf(before.row.pk, {car: _ready(before, mine) for car, mine in jobs.items() if mine})


def _before_it_leaves(plan: Stored, car: str) -> list[Job]:
    """Without what is done in nights at its event."""
    leaves = plan.row.made_from["cars"].get(car)
    due = plan.clock.last_until(datetime.fromisoformat(leaves["due"])) if leaves else plan.problem.slots
    return [job for job in plan.problem.must_do(car) if job.due is None or job.due <= due]


def _ready(plan: Stored, jobs: list[str]) -> datetime | None:
    if any(job not in plan.placed for job in jobs):
        return None
    return plan.clock.moment(max(plan.placed[job].end for job in jobs))


def read_instead_of(made_from: Mapping[str, Any]) -> InsteadOf | None:
    """Of what a plan was made from; None for the first of all."""
    table = made_from.get("instead_of")
    if not table:
        return None
    ready = {car: datetime.fromisoformat(ready) if ready else None for car, ready in table["ready"].items()}
    return InsteadOf(table["plan"], ready)
