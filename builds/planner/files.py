"""Problems and plans as JSON: what is read is refused in one sentence when it is malformed."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import MISSING, asdict, fields
from functools import partial
from typing import Any

from builds.planner.fields import shown
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Hold, Job, Link, Person, Problem, ProblemError, Promise, Station, Vehicle

KEYS = {"start": "from"}
"""The one key that is called otherwise in a hold, `from` being a word of the language."""


def read_problem(words: str | bytes) -> Problem:
    """The problem a JSON text states; ProblemError when it is no JSON or no sound problem.

    Keys are those of the dataclasses in problem.py; `before` is a table {job: {start, people}}.
    Keys that are not known are passed over.
    """
    try:
        table = json.loads(words)
    except (ValueError, RecursionError) as error:
        raise ProblemError("The file is not readable as JSON.") from error
    return problem_from(table)


def problem_from(table: object) -> Problem:
    """The problem that a table, as json.loads returns it, states; ProblemError if it is unsound."""
    if not isinstance(table, Mapping):
        raise ProblemError("The file must hold one table, the problem.")
    given = _values(Problem, table, "The problem")
    if "jobs" not in table:
        raise ProblemError("The problem has no jobs.")
    for key, record in (
        ("vehicles", Vehicle),
        ("people", Person),
        ("stations", Station),
        ("jobs", Job),
        ("links", Link),
    ):
        given[key] = _entries(table, key, partial(_record, record))
    given["holds"] = _entries(table, "holds", _hold)
    given["before"] = _promises(table.get("before"))
    return Problem(**given)


def plan_table(plan: Plan) -> dict[str, Any]:
    """The plan as a table that json.dumps takes."""
    return asdict(plan)


def write_plan(plan: Plan) -> str:
    """The plan as a JSON text."""
    return json.dumps(plan_table(plan))


def read_plan(words: str | bytes) -> Plan:
    """A plan as `write_plan` wrote it; KeyError, TypeError or ValueError for anything else."""
    table = json.loads(words)
    return Plan(
        placed=tuple(
            Placed(entry["id"], entry["start"], entry["end"], tuple(entry["people"])) for entry in table["placed"]
        ),
        unplaced=tuple(Unplaced(entry["id"], entry["why"]) for entry in table["unplaced"]),
        score=tuple(table.get("score", ())),
        seconds=table.get("seconds", 0.0),
        tried=table.get("tried", 1),
    )


def _values(kind: type, entry: object, what: str, keys: Mapping[str, str] = {}) -> dict[str, Any]:
    """The values of an entry by field name, unchecked but for what is missing."""
    if not isinstance(entry, Mapping):
        raise ProblemError(f"{what} must be a table.")
    values = {}
    for field in fields(kind):
        key = keys.get(field.name, field.name)
        if key in entry:
            values[field.name] = entry[key]
        elif field.default is MISSING and field.default_factory is MISSING:
            raise ProblemError(f"{what} has no {key}.")
    return values


def _entries(table: Mapping[str, Any], key: str, read: Callable[[object, str], Any]) -> tuple[Any, ...]:
    entries = table.get(key)
    if entries is None:
        return ()
    if not isinstance(entries, list):
        raise ProblemError(f"The {key} of the problem must be a list.")
    return tuple(read(entry, f"Entry {number} of {key}") for number, entry in enumerate(entries, 1))


def _record(kind: type, entry: object, what: str) -> Any:
    return kind(**_values(kind, entry, what))


def _hold(entry: object, what: str) -> Hold:
    return Hold(**_values(Hold, entry, what, KEYS))


def _promises(table: object) -> tuple[Promise, ...]:
    if table is None:
        return ()
    if not isinstance(table, Mapping):
        raise ProblemError("The plan before must be a table from job to start and people.")
    promises = []
    for job, entry in table.items():
        what = f"The plan before, job {shown(job)},"
        if not isinstance(entry, Mapping):
            raise ProblemError(f"{what} must be a table.")
        promises.append(Promise(**_values(Promise, {**entry, "job": job}, what)))
    return tuple(promises)
