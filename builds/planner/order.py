"""Orders of the list: by what a job and all that waits for it are due for, in several ways."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from heapq import heapify, heappop, heappush

from builds.planner.crowds import barred_by_facts
from builds.planner.lost import lost_cars
from builds.planner.model import Model
from builds.planner.problem import RANKS

WANTED = RANKS.index("wanted")
AHEAD, LOST, NO_EVENT = range(3)

Key = tuple[float, ...]
Rule = Callable[["JobUrgency", int], Key]


class JobUrgency:
    """What jobs inherit backwards along the links, by number.

    `event[j]` 0 with an event ahead, 1 with one that is lost, 2 with none; `rank[j]` 0 for safety
    to 2, `due[j]` the latest end that lets what waits for j be in time, `tail[j]` the work and
    waits from the start of j to the end of what waits for it; and the weight of its car, which is
    not inherited. What ends a hold that has begun is as urgent as all that has no room until then.
    """

    def __init__(self, model: Model) -> None:
        jobs = model.problem.jobs
        none = 2 * model.horizon
        lost = lost_cars(model)
        self.event = [NO_EVENT if job.due is None else LOST if job.vehicle in lost else AHEAD for job in jobs]
        self.rank = [RANKS.index(job.rank) for job in jobs]
        self.due = [none if job.due is None else job.due for job in jobs]
        self.tail = [0] * model.size
        worth = {car.id: car.weight for car in model.problem.vehicles}
        self.car = [job.vehicle for job in jobs]
        self.weight = [worth.get(car or "", 1) for car in self.car]
        self.work = model.work
        self._inherit(model)
        if model.facts:
            behind = barred_by_facts(model.problem)
            for until, barred in behind.items():
                for then in barred:
                    self._precede(model.number[until], model.number[then])
            self._inherit(model)
            for hold in model.problem.holds:
                if model.number[hold.start] in model.facts:
                    self._precede(model.number[hold.start], model.number[hold.until])

    def _inherit(self, model: Model) -> None:
        for j in reversed(model.topological):
            for then, wait, _ in model.after[j]:
                self._precede(j, then, wait)
            self.tail[j] = max(self.tail[j], self.work[j])

    def _precede(self, j: int, then: int, wait: int = 0) -> None:
        """Job j goes before another that may start so long after its end."""
        self.event[j] = min(self.event[j], self.event[then])
        self.rank[j] = min(self.rank[j], self.rank[then])
        self.due[j] = min(self.due[j], self.due[then] - self.work[then] - wait)
        self.tail[j] = max(self.tail[j], self.work[j] + wait + self.tail[then])


def listed(model: Model, keys: Sequence[Key]) -> list[int]:
    """The jobs by rising key, none before a job it waits for; ties by number.

    Jobs in hand and pinned ones keep their stage before all others.
    """
    stage = model.stage
    missing = [len(openings) for openings in model.before]
    ready = [(stage[j], keys[j], j) for j in range(model.size) if not missing[j]]
    heapify(ready)
    order = []
    while ready:
        j = heappop(ready)[2]
        order.append(j)
        for then, _, _ in model.after[j]:
            missing[then] -= 1
            if not missing[then]:
                heappush(ready, (stage[then], keys[then], then))
    return order


def by_event(urgency: JobUrgency, j: int) -> Key:
    """Cars with an event ahead, then those whose event is lost; what must be done, then inherited due slot."""
    return (urgency.event[j], urgency.rank[j] == WANTED, urgency.due[j], urgency.rank[j], -urgency.tail[j])


def by_event_and_slack(urgency: JobUrgency, j: int) -> Key:
    """The same, with the least time between the tail and the due slot in place of the due slot."""
    return (urgency.event[j], urgency.rank[j] == WANTED, urgency.due[j] - urgency.tail[j])


def by_rank(urgency: JobUrgency, j: int) -> Key:
    """Inherited rank, then inherited due slot, then longest tail."""
    return (urgency.rank[j], urgency.due[j], -urgency.tail[j])


def by_due(urgency: JobUrgency, j: int) -> Key:
    """Inherited due slot, then inherited rank, then longest tail."""
    return (urgency.due[j], urgency.rank[j], -urgency.tail[j])


def by_tail(urgency: JobUrgency, j: int) -> Key:
    """Longest tail."""
    return (-urgency.tail[j],)


def by_slack(urgency: JobUrgency, j: int) -> Key:
    """Least time between the tail and the due slot."""
    return (urgency.due[j] - urgency.tail[j],)


def by_work(urgency: JobUrgency, j: int) -> Key:
    """Least work."""
    return (urgency.work[j],)


def by_rank_and_car(urgency: JobUrgency, j: int) -> Key:
    """Inherited rank, then the weight of the car, then inherited due slot."""
    return (urgency.rank[j], -urgency.weight[j], urgency.due[j], -urgency.tail[j])


def by_car(urgency: JobUrgency, j: int) -> Key:
    """The weight of the car, then inherited due slot, then inherited rank."""
    return (-urgency.weight[j], urgency.due[j], urgency.rank[j], -urgency.tail[j])


RULES: tuple[Rule, ...] = (
    by_event,
    by_event_and_slack,
    by_rank,
    by_due,
    by_tail,
    by_slack,
    by_work,
    by_rank_and_car,
    by_car,
)
"""Priority rules; the first two place the plan at once."""


def favouring(cars: Collection[str | None]) -> Rule:
    """The jobs of these cars before all others, and by rank among them."""
    return lambda urgency, j: (urgency.car[j] not in cars, *by_rank(urgency, j))


def giving_way(cars: Collection[str | None]) -> Rule:
    """By event, and these cars behind all others that have one."""
    return lambda urgency, j: (urgency.event[j] == NO_EVENT, urgency.car[j] in cars, *by_event(urgency, j))
