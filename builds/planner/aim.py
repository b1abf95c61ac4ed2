"""What a search aims at: the score of a pass, and on top of it the promises it breaks."""

from __future__ import annotations

from builds.planner.axis import clip
from builds.planner.model import NEVER, Model
from builds.planner.place import Places
from builds.planner.plan import Score
from builds.planner.problem import RANKS, Promise


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
        dated: dict[str | None, list[int]] = {}
        for number, job in enumerate(jobs):
            if job.due is not None and job.rank != "wanted":
                dated.setdefault(job.vehicle, []).append(number)
        self.ready = [(self.worth[car], mine) for car, mine in dated.items()]
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

    def score(self, end: list[int]) -> Score:
        """The score of these ends by job, as the contract counts it."""
        horizon = self.model.horizon
        if self.finish:
            return (min(horizon, max(end, default=0)),)
        by_rank, missed = [0.0, 0.0, 0.0], set()
        rank, car, weight = self.rank, self.car, self.weight
        for j in self.late(end):
            by_rank[rank[j]] += weight[j]
            if rank[j] < 2:
                missed.add(car[j])
        ends = [stop if stop < horizon else horizon for stop in end]
        ready = sum(worth * max([ends[j] for j in mine]) for worth, mine in self.ready)
        summed = sum(ends) + 2 * sum([ends[j] for j in self.safety])
        return (sum(self.worth[name] for name in missed), *by_rank, ready, summed)

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

    def _alone(self, j: int, at: int) -> int:
        """The soonest end of the job begun at slot `at` or later, were everybody free."""
        model, work = self.model, self.model.work[j]
        if not work:
            return at
        lasts = (crew.axis.last(model.fold.folded[at], work) for crew in model.crews[j])
        return min((model.fold.real[last] + 1 for last in lasts if last is not None), default=NEVER)

    def floor(self) -> Score:
        """No plan can be better: every job as if it were alone with what it waits for."""
        model = self.model
        least = [NEVER] * model.size
        for j in model.topological:
            opens = [least[i] + wait for i, wait, _ in model.before[j]]
            at = max([model.earliest[j], *opens])
            if at + model.work[j] <= model.horizon and model.crews[j]:
                least[j] = self._alone(j, at)
        return self.score(least)
