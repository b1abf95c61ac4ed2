"""The count kept while runs go by."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from builds.odds.answer import JobOdds, Odds, VehicleOdds
from builds.odds.course import Course
from builds.planner.model import NEVER
from builds.planner.problem import Problem


class Tally:
    """Counts by car; `odds` reads them at any moment.

    `ready[car]` holds, run by run, the slot by which the car's safety and needed jobs were done.
    """

    def __init__(self, problem: Problem, course: Course, seed: int) -> None:
        self.runs, self.seed = 0, seed
        self._jobs, self._horizon, self.course = problem.jobs, problem.slots, course
        self._due = [NEVER if job.due is None else job.due for job in problem.jobs]
        self._must: dict[str, list[int]] = defaultdict(list)
        for number, job in enumerate(problem.jobs):
            if job.vehicle is not None and job.must_do:
                self._must[job.vehicle].append(number)
        self._dated = {car for car, jobs in self._must.items() if any(self._due[job] != NEVER for job in jobs)}
        self._in_time = dict.fromkeys(self._must, 0)
        self._held = {car: [0] * len(problem.jobs) for car in self._must}
        self.ready: dict[str, list[float]] = {car: [] for car in self._must}

    def add(self, ends: Sequence[int], causes: Sequence[int]) -> None:
        """Count one run: the ends of the jobs in slots, and what each waited for last."""
        self.runs += 1
        for car, jobs in self._must.items():
            last = max(jobs, key=ends.__getitem__)
            done = ends[last] <= self._horizon
            self.ready[car].append(ends[last] if done else float("inf"))
            self._in_time[car] += done and all(ends[job] <= self._due[job] for job in jobs)
            held = self._held[car]
            while last >= 0:
                held[last] += 1
                last = causes[last]

    def in_time(self, car: str) -> int:
        """In how many of the runs so far a car was in time; 0 for one without a due slot."""
        return self._in_time[car] if car in self._dated else 0

    def odds(self, asked: int | None = None) -> Odds:
        """The answer so far; `asked` is how many runs were wanted, by default those there are."""
        return Odds(
            self.runs,
            self.runs if asked is None else asked,
            self.seed,
            {car: self._of_vehicle(car) for car in self._must},
        )

    def _of_vehicle(self, car: str) -> VehicleOdds:
        held = [
            JobOdds(job.id, self.runs, count) for job, count in zip(self._jobs, self._held[car], strict=True) if count
        ]
        return VehicleOdds(
            car,
            self.runs,
            self._in_time[car] if car in self._dated else None,
            tuple(sorted(self.ready[car])),
            tuple(sorted(held, key=lambda job: -job.held_up)),
        )
