"""Every plan worth having of a tiny problem, by brute force: all orders, all crews, no planner."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Job, Problem
from tests.builds.planner.judge import alone, breaches, worth


def best_score(problem: Problem) -> tuple[float, ...]:
    """The best score of any plan in which every job starts as soon as those begun before allow.

    Jobs are added in every order the links allow, each with every crew, at its earliest start
    beside those already there; a job that finds no place is left out, and so is what waits for it.
    Slot by slot, with sets; for up to five jobs.
    """
    walk = _Walk(problem)
    walk.go([], [])
    return walk.best


def best_score_of_all(problem: Problem) -> tuple[float, ...]:
    """The best score of any valid plan at all: every start, every crew, every job left out or not.

    Only the judge says what is valid, so holds and the places of cars count; for up to three jobs.
    """
    rows = [[None, *_rows_alone(problem, job)] for job in problem.jobs]
    best = None
    for some in product(*rows):
        placed = tuple(row for row in some if row is not None)
        left = tuple(Unplaced(job.id, "Left.") for job, row in zip(problem.jobs, some, strict=True) if row is None)
        plan = Plan(placed, left)
        score = worth(problem, plan)
        if (best is None or score < best) and not breaches(problem, plan):
            best = score
    assert best is not None
    return best


def _rows_alone(problem: Problem, job: Job) -> Iterator[Placed]:
    """Every row of the job that breaks no rule by itself."""
    for crew in combinations([row.id for row in problem.people], job.hands):
        for start in range(problem.slots + 1):
            for end in range(start, problem.slots + 1) if job.work else (start,):
                row = Placed(job.id, start, end, crew)
                if not alone(problem, job, row):
                    yield row


class _Walk:
    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.people = {row.id: (row, _slots(row.windows, problem.slots)) for row in problem.people}
        self.stations = {row.id: (row, _slots(row.windows, problem.slots)) for row in problem.stations}
        self.best: tuple[float, ...] = (float("inf"),)

    def go(self, placed: list[Placed], left: list[str]) -> None:
        named = {row.id for row in placed} | set(left)
        if len(named) == len(self.problem.jobs):
            plan = Plan(tuple(placed), tuple(Unplaced(name, "No place.") for name in left))
            self.best = min(self.best, worth(self.problem, plan))
            return
        for job in self.problem.jobs:
            befores = [link.before for link in self.problem.links if link.after == job.id]
            if job.id in named or not set(befores) <= named:
                continue
            rows = [] if set(befores) & set(left) else list(self._rows(job, placed))
            for row in rows:
                self.go([*placed, row], left)
            if not rows:
                self.go(placed, [*left, job.id])

    def _rows(self, job: Job, placed: list[Placed]) -> Iterator[Placed]:
        """The soonest row of the job for each crew, beside what is placed."""
        opens = max(0, job.earliest)
        for link in self.problem.links:
            for row in placed:
                if link.after == job.id and link.before == row.id:
                    opens = max(opens, link.opens(row.end))
        for crew in combinations(self.people, job.hands):
            if job.crew is not None and set(crew) != set(job.crew):
                continue
            skills = {skill for name in crew for skill in self.people[name][0].skills}
            if job.skill and crew and job.skill not in skills:
                continue
            hours = _slots(job.windows, self.problem.slots)
            for name in crew:
                hours &= self.people[name][1]
            for name in job.uses:
                hours &= self.stations[name][1]
            row = self._soonest(job, crew, opens, hours, placed)
            if row is not None:
                yield row

    def _soonest(
        self, job: Job, crew: tuple[str, ...], opens: int, hours: set[int], placed: list[Placed]
    ) -> Placed | None:
        for start in range(opens, self.problem.slots + 1):
            if job.pinned is not None and start != job.pinned:
                continue
            worked = sorted(slot for slot in hours if slot >= start)[: job.work]
            if len(worked) < job.work or (worked and worked[0] != start):
                continue
            end = worked[-1] + 1 if worked else start
            if not job.splits and end - start != job.work:
                continue
            if self._free(job, crew, start, end, placed):
                return Placed(job.id, start, end, crew)
        return None

    def _free(self, job: Job, crew: tuple[str, ...], start: int, end: int, placed: list[Placed]) -> bool:
        jobs = {row.id: row for row in self.problem.jobs}
        for slot in range(start, end):
            busy = [row for row in placed if row.start <= slot < row.end]
            if any(set(row.people) & set(crew) for row in busy):
                return False
            for name, units in job.uses.items():
                load = sum(jobs[row.id].uses.get(name, 0) for row in busy)
                if units and load + units > self.stations[name][0].capacity:
                    return False
            there = [job, *(jobs[row.id] for row in busy if jobs[row.id].vehicle == job.vehicle)]
            if len({name for here in there for name in here.uses if self.stations[name][0].stands}) > 1:
                return False
        return True


def _slots(windows: tuple[tuple[int, int], ...] | None, horizon: int) -> set[int]:
    if windows is None:
        return set(range(horizon))
    return {slot for slot in range(horizon) if any(a <= slot < b for a, b in windows)}
