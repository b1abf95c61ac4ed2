"""Plans as they are kept: the planner's own problem and answer, in the garage's own time."""

import json
from dataclasses import asdict, dataclass, replace
from functools import cached_property
from typing import Any
from zoneinfo import ZoneInfo

from builds.cure.facts.plan_clock import PlanClock
from builds.plan.models import Plan as PlanRow
from builds.planner.files import problem_from, read_plan, write_plan
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Job, Problem, Promise
from garage.models import Garage


@dataclass(frozen=True)
class Stored:
    """`row` is None for a plan that was only tried in thought."""

    problem: Problem
    answer: Plan
    clock: PlanClock
    row: PlanRow | None = None

    @cached_property
    def jobs(self) -> dict[str, Job]:
        """The work of the plan by name; facts that only start a hold are left out."""
        return {job.id: job for job in self.problem.jobs if not job.id.startswith("fact-")}

    @cached_property
    def placed(self) -> dict[str, Placed]:
        return {row.id: row for row in self.answer.placed if row.id in self.jobs}

    @cached_property
    def unplaced(self) -> dict[str, Unplaced]:
        return {row.id: row for row in self.answer.unplaced if row.id in self.jobs}

    def promises(self, clock: PlanClock) -> tuple[Promise, ...]:
        """Where the work stands in this plan, in the slots of another one."""
        return tuple(
            Promise(row.id, clock.last_until(self.clock.moment(row.start)), row.people) for row in self.placed.values()
        )


def problem_table(problem: Problem) -> dict[str, Any]:
    """The problem in the keys of a problem file, as `problem_from` reads it back."""
    table = asdict(problem)
    table["holds"] = [{**row, "from": row["start"]} for row in table["holds"]]
    for row in table["holds"]:
        del row["start"]
    table["before"] = {row["job"]: {"start": row["start"], "people": row["people"]} for row in table["before"]}
    plain: dict[str, Any] = json.loads(json.dumps(table))
    return plain


def packed(problem: Problem) -> dict[str, Any]:
    """As `problem_table`, with the long tables of ready slots kept once for all links alike."""
    tables = list(dict.fromkeys(link.ready for link in problem.links if link.ready))
    links = tuple(replace(link, ready=None) for link in problem.links)
    table = problem_table(replace(problem, links=links))
    for row, link in zip(table["links"], problem.links, strict=True):
        row["ready"] = tables.index(link.ready) if link.ready else None
    return {**table, "ready": [list(slots) for slots in tables]}


def unpacked(table: dict[str, Any]) -> Problem:
    """What was packed. Raises ProblemError for a table that is no sound problem."""
    tables = [tuple(slots) for slots in table.get("ready", ())]
    links = [{**row, "ready": tables[row["ready"]]} if isinstance(row["ready"], int) else row for row in table["links"]]
    return problem_from({**table, "links": links})


def answer_table(answer: Plan) -> dict[str, Any]:
    table: dict[str, Any] = json.loads(write_plan(answer))
    return table


def read(row: PlanRow, garage: Garage) -> Stored:
    problem = unpacked(row.problem)
    clock = PlanClock.of(problem.start or "", ZoneInfo(garage.time_zone))
    return Stored(problem, read_plan(json.dumps(row.answer)), clock, row)


def shown(garage: Garage) -> Stored | None:
    """The plan on the wall; one query."""
    row = PlanRow.objects.in_garage(garage).shown().first()
    return read(row, garage) if row else None
