"""Short hands for problems in tests: a car, a person, a bay, and jobs with sensible defaults."""

from __future__ import annotations

from typing import Any

from builds.planner.plan import Placed, Plan
from builds.planner.problem import Job, Person, Problem, Station, Vehicle
from builds.planner.search import plan
from tests.builds.planner.judge import breaches

HERON, MOTH = Vehicle("heron", 2, "Heron"), Vehicle("moth", 1, "Moth")
PLACES = (Station("bay", 1, stands=True), Station("floor", 1, stands=True))


def job(name: str, work: int = 2, hands: int = 1, **keys: Any) -> Job:
    """A needed job on Heron by one person unless said otherwise."""
    return Job(**{"id": name, "vehicle": "heron", "rank": "needed", "work": work, "hands": hands} | keys)


def person(name: str, *skills: str, windows: Any = None) -> Person:
    """Somebody, always there unless said otherwise."""
    return Person(name, skills, windows)


def problem(*jobs: Job, slots: int = 40, **keys: Any) -> Problem:
    """A problem of the two cars, Ines and a bay unless said otherwise."""
    defaults: dict[str, Any] = {
        "people": (person("ines"),),
        "stations": (Station("bay"),),
        "vehicles": (HERON, MOTH),
    }
    return Problem(slots=slots, jobs=jobs, **defaults | keys)


def rows(plan: Plan) -> dict[str, Placed]:
    """The placed rows by job."""
    return {row.id: row for row in plan.placed}


def spans(plan: Plan) -> dict[str, tuple[int, int]]:
    """Start and end by job."""
    return {row.id: (row.start, row.end) for row in plan.placed}


def why(plan: Plan, name: str) -> str:
    """The sentence a job is left unplaced with."""
    return next(row.why for row in plan.unplaced if row.id == name)


def planned(*jobs: Job, **keys: Any) -> Plan:
    """The first plan of a problem made like `problem`, without a fault."""
    made = problem(*jobs, **keys)
    answer = plan(made)
    assert not breaches(made, answer)
    return answer
