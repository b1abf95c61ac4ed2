"""A car that is not entered, so that another one makes it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builds.planner.problem import Problem
from builds.remedies.engine.changes.change import Change

A_POINT = 12.0
"""Hours of trouble for each point of the weight of a car that stays at home: a day and a half.
Common practice, no source."""


@dataclass(frozen=True, slots=True)
class StayHome(Change):
    """The work of a car (an id) is due for its next event, at slot `due`, or for none.

    `asked` is the weight that its entry had, `weight` what the car then weighs.
    """

    vehicle: str
    due: int | None
    weight: float
    asked: float
    kind: str = "home"

    @property
    def effort(self) -> float:
        return A_POINT * self.asked

    def apply(self, problem: Problem) -> Problem:
        jobs = (
            replace(job, due=self.due) if job.vehicle == self.vehicle and job.due is not None else job
            for job in problem.jobs
        )
        cars = (replace(car, weight=self.weight) if car.id == self.vehicle else car for car in problem.vehicles)
        return replace(problem, jobs=tuple(jobs), vehicles=tuple(cars))

    def gives_up(self, vehicle: str) -> bool:
        return self.vehicle == vehicle
