"""Problems and plans as the tables of JSON in which they are kept."""

import json
from dataclasses import asdict, replace
from typing import Any

from builds.planner.files import problem_from, read_plan, write_plan
from builds.planner.plan import Plan
from builds.planner.problem import Problem


def problem_table(problem: Problem) -> dict[str, Any]:
    """The problem in the keys of a problem file, as `problem_from` reads it back."""
    table = asdict(problem)
    for hold in table["holds"]:
        hold["from"] = hold.pop("start")
    table["before"] = {
        promise["job"]: {"start": promise["start"], "people": promise["people"]} for promise in table["before"]
    }
    plain: dict[str, Any] = json.loads(json.dumps(table))
    return plain


def packed(problem: Problem) -> dict[str, Any]:
    """As `problem_table`, with the long tables of ready slots kept once for all links alike."""
    ready_tables = list(dict.fromkeys(link.ready for link in problem.links if link.ready))
    links = tuple(replace(link, ready=None) for link in problem.links)
    table = problem_table(replace(problem, links=links))
    for kept, link in zip(table["links"], problem.links, strict=True):
        kept["ready"] = ready_tables.index(link.ready) if link.ready else None
    return {**table, "ready": [list(slots) for slots in ready_tables]}


def unpacked(table: dict[str, Any]) -> Problem:
    """What was packed. Raises ProblemError for a table that is no sound problem."""
    ready_tables = [tuple(slots) for slots in table.get("ready", ())]
    links = [
        {**link, "ready": ready_tables[link["ready"]]} if isinstance(link["ready"], int) else link
        for link in table["links"]
    ]
    return problem_from({**table, "links": links})


def answer_table(answer: Plan) -> dict[str, Any]:
    table: dict[str, Any] = json.loads(write_plan(answer))
    return table


def answer_from(table: dict[str, Any]) -> Plan:
    """What `answer_table` wrote."""
    return read_plan(json.dumps(table))
