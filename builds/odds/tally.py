"""The count kept while runs go by."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from builds.odds.answer import JobOdds, Odds, VehicleOdds
from builds.odds.course import Course
from builds.odds.hours import NEVER
from builds.planner.problem import Problem

NO_DUE = NEVER


class Tally:
    """Counts by car and by job; `odds` reads them at any moment.

    `ready[car]` holds, run by run, the minute by which the car's safety and needed jobs were done.
    """

    def __init__(self, problem: Problem, course: Course, seed: int) -> None:
        self.runs, self.seed = 0, seed
        self._problem, self.course = problem, course
        self._due = [NO_DUE if job.due is None else job.due * course.slot_minutes for job in course.jobs]
        self._late = [0] * len(course.jobs)
        self._must, self._never = self._counting()
        self._in_time = dict.fromkeys(self._must, 0)
        self._held = {car: [0] * len(course.jobs) for car in self._must}
        self.ready: dict[str, list[float]] = {car: [] for car in self._must}

    def _counting(self) -> tuple[dict[str, list[int]], set[str]]:
        """The jobs that must be done by car, and the cars that have one without a place."""
        number = {job.id: j for j, job in enumerate(self.course.jobs)}
        must: dict[str, list[int]] = defaultdict(list)
        never = set()
        for job in self._problem.jobs:
            if job.vehicle is not None and job.rank != "wanted":
                if job.id in number:
                    must[job.vehicle].append(number[job.id])
                else:
                    never.add(job.vehicle)
                    must[job.vehicle] += []
        return {car: sorted(jobs) for car, jobs in must.items()}, never

    def add(self, ends: Sequence[float], causes: Sequence[int]) -> None:
        """Count one run: the ends of the jobs in minutes, and what each waited for last."""
        self.runs += 1
        missed = [j for j, end in enumerate(ends) if end > self._due[j]]
        for j in missed:
            self._late[j] += 1
        late = set(missed)
        for car, jobs in self._must.items():
            if car in self._never:
                self.ready[car].append(NEVER)
                continue
            at = max(jobs, key=ends.__getitem__)
            done = ends[at]
            self.ready[car].append(done if done <= self.course.horizon else NEVER)
            self._in_time[car] += late.isdisjoint(jobs)
            held = self._held[car]
            while at >= 0:
                held[at] += 1
                at = causes[at]

    def odds(self, asked: int | None = None) -> Odds:
        """The answer so far; `asked` is how many runs were wanted, by default those there are."""
        return Odds(
            self.runs,
            self.runs if asked is None else asked,
            self.seed,
            {car: self._of_vehicle(car) for car in self._must},
            self._of_jobs(),
        )

    def _of_vehicle(self, car: str) -> VehicleOdds:
        jobs, slot = self.course.jobs, self.course.slot_minutes
        dated = any(job.due is not None and job.vehicle == car and job.rank != "wanted" for job in self._problem.jobs)
        held = sorted(
            ((jobs[j].id, count) for j, count in enumerate(self._held[car]) if count),
            key=lambda pair: -pair[1],
        )
        return VehicleOdds(
            car,
            self.runs,
            self._in_time[car] if dated else None,
            tuple(moment / slot for moment in sorted(self.ready[car])),
            tuple(held),
        )

    def _of_jobs(self) -> dict[str, JobOdds]:
        number = {job.id: j for j, job in enumerate(self.course.jobs)}
        found = {}
        for job in self._problem.jobs:
            j = number.get(job.id)
            late = self.runs if j is None else self._late[j]
            held = self._held.get(job.vehicle or "")
            found[job.id] = JobOdds(
                job.id,
                self.runs,
                None if job.due is None else late,
                held[j] if held and j is not None else 0,
            )
        return found
