"""What a search aims at: the score of a pass, and on top of it the promises it breaks."""

from __future__ import annotations

from math import inf

from builds.planner.axis import clip
from builds.planner.model import NEVER, Model
from builds.planner.place import Places
from builds.planner.plan import Score
from builds.planner.problem import RANKS, Promise
from builds.planner.soonest import soonest_ends

WANTED = RANKS.index("wanted")

GIVEN_UP = 96
"""Slots past its due slot from which a job may as well be last."""


class Aim:
    """Values a pass: the score, its last part raised by `keep` for each promise not kept.

    A promise is kept when the job has the same people and starts in the same session: the window
    of the first of them in which it was to start. Promises of the past are gone.
    """

    def __init__(self, model: Model) -> None:
        problem = model.problem
        self.model, self.finish, self.keep = model, problem.goal == "finish", problem.keep
        jobs = problem.jobs
        self.due = [2 * NEVER if job.due is None else job.due for job in jobs]
        self.rank = [RANKS.index(job.rank) for job in jobs]
        self.weight = [job.weight for job in jobs]
        self.car = [job.vehicle for job in jobs]
        self.worth = dict.fromkeys(self.car, 1.0)
        self.worth |= {car.id: car.weight for car in problem.vehicles}
        self.safety = [j for j, job in enumerate(jobs) if job.rank == "safety"]
        self.dated: dict[str | None, list[int]] = {}
        for number, job in enumerate(jobs):
            if job.due is not None and job.must_do:
                self.dated.setdefault(job.vehicle, []).append(number)
        self.ready = [(self.worth[car], mine) for car, mine in self.dated.items()]
        self.promised: dict[int, tuple[int, int, list[int]]] = {}
        for promise in problem.before:
            j = model.number.get(promise.job)
            if j is not None:
                self._promise(j, promise)

    def _promise(self, j: int, promise: Promise) -> None:
        numbers = self.model.roster.numbers
        people = sorted(numbers[name] for name in promise.people if name in numbers)
        if not people or len(people) < len(promise.people):
            return
        for begin, end in clip(self.model.problem.people[people[0]].windows, self.model.horizon):
            if begin <= promise.start < end:
                self.promised[j] = (begin, end, people)

    def value(self, places: Places) -> Score:
        """Lower is better, compared left to right."""
        *first, last = self.score(places.end)
        return (*first, last + self.keep * self.broken(places))

    def near(self, value: Score, late: list[int], end: list[int]) -> Score:
        """How far from being in time: slots late of what must be done, then of what is wanted, then the value.

        A job that is late by far is given up: it counts the same however late it is.
        """
        if self.finish:
            return value
        must = wanted = 0.0
        for j in late:
            over = min(end[j] - self.due[j], GIVEN_UP)
            if self.rank[j] < WANTED:
                must += over * self.worth[self.car[j]]
            else:
                wanted += over * self.weight[j]
        return (must, wanted, *value)

    def score(self, end: list[int]) -> Score:
        """The score of these ends by job, as the contract counts it."""
        horizon = self.model.horizon
        if self.finish:
            return (min(horizon, max(end, default=0)),)
        by_rank, late = [0.0, 0.0, 0.0], self.late(end)
        rank, weight = self.rank, self.weight
        for j in late:
            by_rank[rank[j]] += weight[j]
        ends = [stop if stop < horizon else horizon for stop in end]
        ready = sum(worth * max([ends[j] for j in mine]) for worth, mine in self.ready)
        summed = sum(ends) + 2 * sum([ends[j] for j in self.safety])
        return (sum([self.worth[name] for name in self.missed(late)]), *by_rank, ready, summed)

    def missed(self, late: list[int]) -> set[str | None]:
        """The cars that miss their event when these jobs are late."""
        rank, car = self.rank, self.car
        return {car[j] for j in late if rank[j] < WANTED}

    def late(self, end: list[int]) -> list[int]:
        """The jobs that end after their due slot, by number; none counts for the goal "finish"."""
        if self.finish:
            return []
        return [j for j, (stop, due) in enumerate(zip(end, self.due, strict=True)) if stop > due]

    def broken(self, places: Places) -> int:
        """How many promises the pass does not keep."""
        return sum(
            places.end[j] == NEVER or not begin <= places.start[j] < end or sorted(places.crew[j]) != people
            for j, (begin, end, people) in self.promised.items()
        )

    def burden(self, car: str | None) -> float:
        """The work that must be done for the event of the car, by the weight of the car."""
        jobs, worth = self.model.problem.jobs, self.worth[car]
        return sum(jobs[j].work * jobs[j].hands for j in self.dated[car]) / worth if worth else inf

    def floor(self) -> Score:
        """No plan can be better: every job as if it were alone with what it waits for."""
        return self.score(soonest_ends(self.model))
