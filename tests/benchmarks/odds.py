"""How long the odds of a problem take, fleet by fleet: `python -m tests.benchmarks.odds`."""

from __future__ import annotations

from itertools import islice
from time import process_time

from builds.odds.course import Course
from builds.odds.estimates import Figures
from builds.odds.simulate import runs
from builds.planner.problem import Problem
from tests.benchmarks.planner.fleets import made_fleet
from tests.builds.planner.data import FLEETS, fleet

RUNS = 50


def lines() -> list[tuple[str, ...]]:
    """A table, its heading first: seconds of one core, and how many runs they give in five."""
    problems = {path.stem: fleet(path) for path in FLEETS} | {"made_150": made_fleet(150)}
    heading = ("fleet", "jobs", "prepared", "a run", "runs in 5 s")
    return [heading, *(_line(name, problem) for name, problem in problems.items())]


def _line(name: str, problem: Problem) -> tuple[str, ...]:
    begun = process_time()
    Course(problem)
    prepared = process_time() - begun
    begun = process_time()
    *_, tally = islice(runs(problem, _figures(problem)), RUNS)
    tally.odds()
    run = (process_time() - begun - prepared) / RUNS
    return name, str(len(problem.jobs)), f"{1000 * prepared:.0f} ms", f"{1000 * run:.1f} ms", f"{5 / run:.0f}"


def _figures(problem: Problem) -> dict[str, Figures]:
    """Every job between seven tenths of its likely figure and nearly twice that."""
    minutes = {job.id: job.work * problem.slot_minutes for job in problem.jobs}
    return {name: (0.7 * likely, likely, 1.9 * likely) for name, likely in minutes.items()}


if __name__ == "__main__":
    for line in lines():
        print("|", " | ".join(line), "|")
