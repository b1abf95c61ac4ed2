"""The problem files of the tests: made fleets, two more for the odds, published instances of the PSPLIB sets.

PSPLIB: Kolisch & Sprecher, EJOR 96 (1997) 205-216; best known values from its site by way of a
public mirror. Resources become stations, nobody works on anything, the goal is the latest end.
"""

from __future__ import annotations

import csv
import json
from pathlib import Path
from typing import Any

from builds.planner.files import problem_from
from builds.planner.problem import Problem

ROOT = Path(__file__).resolve().parents[2] / "data" / "planning"
FLEETS = sorted((ROOT / "fleet").glob("*.json"))
ODDS = sorted((ROOT / "odds").glob("odds_*.json"))
SETS = ("j30", "j60", "j120")


def fleet(path: Path) -> Problem:
    """A made fleet as a problem."""
    return problem_from(json.loads(path.read_text()))


def instances(name: str) -> list[tuple[Path, int]]:
    """The files of a PSPLIB set, each with the best makespan known for it."""
    with (ROOT / "psplib" / name / "best_known.csv").open() as rows:
        return [(ROOT / "psplib" / name / row["instance"], int(row["best_known"])) for row in csv.DictReader(rows)]


def psplib(path: Path) -> Problem:
    """A single-mode PSPLIB file as a problem; its two dummy jobs stay, without work."""
    lines = path.read_text().splitlines()
    links = [
        {"before": row[0], "after": after, "wait": 0}
        for row in _section(lines, "PRECEDENCE RELATIONS", 2)
        for after in row[3:]
    ]
    requests = _section(lines, "REQUESTS/DURATIONS", 3)
    capacities = _section(lines, "RESOURCEAVAILABILITIES", 2)[0]
    jobs = [plain_job(row[0], int(row[2]), {f"R{k}": int(n) for k, n in enumerate(row[3:], 1)}) for row in requests]
    stations = [{"id": f"R{k}", "capacity": int(n)} for k, n in enumerate(capacities, 1)]
    return resource_problem(jobs, links, stations)


def resource_problem(
    jobs: list[dict[str, Any]], links: list[dict[str, Any]], stations: list[dict[str, Any]]
) -> Problem:
    """A problem of stations alone, with all the slots the jobs could need one after the other."""
    slots = sum(job["work"] for job in jobs) + sum(link["wait"] for link in links)
    return problem_from(
        {
            "slots": max(1, slots),
            "goal": "finish",
            "people": [],
            "jobs": jobs,
            "links": links,
            "stations": stations,
        }
    )


def plain_job(name: str, work: int, uses: dict[str, int]) -> dict[str, Any]:
    """A job of stations alone, in one piece."""
    used = {station: units for station, units in uses.items() if units}
    return {
        "id": name,
        "vehicle": None,
        "rank": "needed",
        "work": work,
        "hands": 0,
        "uses": used,
        "splits": False,
    }


def _section(lines: list[str], title: str, skip: int) -> list[list[str]]:
    begin = next(k for k, line in enumerate(lines) if line.startswith(title)) + skip
    rows = []
    for line in lines[begin:]:
        if not line.split() or not line.split()[0].isdigit():
            break
        rows.append(line.split())
    return rows
