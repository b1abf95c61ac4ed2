"""Orders of the list: by inherited urgency, then due slot, then the longest tail behind a job."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from heapq import heapify, heappop, heappush

from .model import Model
from .problem import RANKS

Key = tuple[float, ...]
Rule = Callable[["Urgency", int], Key]


class Urgency:
    """What jobs inherit backwards along the links, by number.

    `rank[j]` 0 for safety to 2, `due[j]` the latest end that lets what waits for j be in time,
    `tail[j]` the work and waits from the start of j to the end of what waits for it.
    """

    def __init__(self, model: Model) -> None:
        jobs = model.problem.jobs
        none = 2 * model.horizon
        self.rank = [RANKS.index(job.rank) for job in jobs]
        self.due = [none if job.due is None else job.due for job in jobs]
        self.tail = [0] * model.size
        self.weight = [_worth(model, job.vehicle) for job in jobs]
        for j in reversed(model.topological):
            behind = 0
            for then, wait, _ in model.after[j]:
                self.rank[j] = min(self.rank[j], self.rank[then])
                self.due[j] = min(self.due[j], self.due[then] - model.work[then] - wait)
                behind = max(behind, wait + self.tail[then])
            self.tail[j] = model.work[j] + behind


def _worth(model: Model, vehicle: str | None) -> float:
    return next((car.weight for car in model.problem.vehicles if car.id == vehicle), 1)


def first_rule(urgency: Urgency, j: int) -> Key:
    """Inherited rank, then inherited due slot, then longest tail."""
    return (urgency.rank[j], urgency.due[j], -urgency.tail[j])


def listed(model: Model, keys: Sequence[Key]) -> list[int]:
    """The jobs by rising key, none before a job it waits for; ties by number.

    Jobs in hand come before all, then pinned ones by their start, each after what it waits for.
    """
    jobs = model.problem.jobs
    head = [j for j in range(model.size) if jobs[j].started]
    head += sorted(
        (j for j in range(model.size) if jobs[j].pinned is not None and not jobs[j].started),
        key=lambda j: (jobs[j].pinned, j),
    )
    stage = [len(head)] * model.size
    for k, j in enumerate(head):
        for need in (j, *model.ancestors(j)):
            stage[need] = min(stage[need], k)
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


def first_order(model: Model, rule: Rule = first_rule) -> list[int]:
    """The list by one priority rule; the default is the one the first plan uses."""
    urgency = Urgency(model)
    return listed(model, [rule(urgency, j) for j in range(model.size)])
