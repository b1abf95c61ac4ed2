"""How long the odds of a plan take, fleet by fleet: `python -m tests.benchmarks.odds`."""

from __future__ import annotations

from itertools import islice
from statistics import median
from time import process_time

from builds.odds.course import Course
from builds.odds.estimates import Figures
from builds.odds.simulate import runs, simulate
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.planner.search import plan
from tests.benchmarks.planner.fleets import made_fleet
from tests.builds.planner.data import FLEETS, fleet

RUNS = 1000
TIMES = 3


def rows() -> list[tuple[str, ...]]:
    """A table, its heading first: seconds of one core, the median of three."""
    problems = {path.stem: fleet(path) for path in FLEETS} | {"made_400": made_fleet(400)}
    heading = ("fleet", "jobs", "prepared", "first 100 runs", f"{RUNS:,} runs", "a job and run")
    return [heading, *(_row(name, problem) for name, problem in problems.items())]


def _row(name: str, problem: Problem) -> tuple[str, ...]:
    made, figures = plan(problem), _figures(problem)
    measured = [_seconds(problem, made, figures) for _ in range(TIMES)]
    prepared, early, whole = (median(column) for column in zip(*measured, strict=True))
    each = 1e6 * (whole - prepared) / RUNS / len(made.placed)
    return (
        name,
        str(len(problem.jobs)),
        f"{1000 * prepared:.0f} ms",
        f"{1000 * early:.0f} ms",
        f"{whole:.2f} s",
        f"{each:.1f} µs",
    )


def _seconds(problem: Problem, made: Plan, figures: dict[str, Figures]) -> tuple[float, ...]:
    begun = process_time()
    Course(problem, made)
    ready = process_time()
    *_, tally = islice(runs(problem, made, figures), 100)
    tally.odds()
    early = process_time()
    simulate(problem, made, figures, runs=RUNS)
    return ready - begun, early - ready, process_time() - early


def _figures(problem: Problem) -> dict[str, Figures]:
    """Every job between seven tenths of its likely figure and nearly twice that."""
    minutes = {job.id: job.work * problem.slot_minutes for job in problem.jobs}
    return {name: (0.7 * likely, likely, 1.9 * likely) for name, likely in minutes.items()}


if __name__ == "__main__":
    for line in rows():
        print("|", " | ".join(line), "|")
