"""Jobs in the order in which they would be worked, and links mended where jobs are left out."""

from collections.abc import Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass, replace
from heapq import heapify, heappop, heappush
from typing import Any, TypeVar

# What was to be coated again, and now is not, has to harden until it can be handled.
PASSED_ON = {"recoat_from": "handle"}
Id = TypeVar("Id", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Wait:
    """`after` waits for `before`, and `wait` minutes more, because of `why`.

    `cure` names the product that is waited for; with a `stage` its time is computed, and `wait`
    is only what to go by where that cannot be done.
    """

    before: Hashable
    after: Hashable
    wait: int = 0
    why: str = ""
    cure: str = ""
    stage: str = ""


def working_order(keys: Mapping[Id, tuple[Any, ...]], links: Iterable[tuple[Id, Id]]) -> list[Id]:
    """Job ids so that none comes before one it waits for; among free ones the least key first.

    `keys` gives each job something that sorts, `links` are (before, after); links to jobs not
    given are passed over, and jobs that wait for each other in a circle come last, by key.
    O(n log n).
    """
    missing = dict.fromkeys(keys, 0)
    onward: dict[Id, list[Id]] = {job: [] for job in keys}
    for before, after in set(links):
        if before in keys and after in keys:
            onward[before].append(after)
            missing[after] += 1
    given_as = {job: number for number, job in enumerate(keys)}
    free = [(keys[job], given_as[job], job) for job, count in missing.items() if not count]
    heapify(free)
    order: list[Id] = []
    while free:
        job = heappop(free)[2]
        order.append(job)
        for after in onward[job]:
            missing[after] -= 1
            if not missing[after]:
                heappush(free, (keys[after], given_as[after], after))
    if len(order) < len(keys):
        done = set(order)
        order += sorted((job for job in keys if job not in done), key=lambda job: keys[job])
    return order


def reached_from(first: Id, links: Iterable[tuple[Id, Id]]) -> list[Id]:
    """Jobs behind this one, however far along the links (before, after); itself only in a circle.

    Linear in the links.
    """
    onward: dict[Id, list[Id]] = {}
    for before, after in links:
        onward.setdefault(before, []).append(after)
    reached: dict[Id, None] = {}
    waiting = [first]
    while waiting:
        for after in onward.get(waiting.pop(), ()):
            if after not in reached:
                reached[after] = None
                waiting.append(after)
    return list(reached)


def without(waits: Iterable[Wait], left_out: Collection[Hashable]) -> list[Wait]:
    """The waits when some jobs are not done: what came before them still comes before the rest.

    A wait belongs to the job it follows (what was welded cools, what was painted cures), so the
    wait of the first link on the way is kept, the longest where several ways lead, and a cure
    before a plain wait. Waits that the others imply are not removed. Raises nothing; a circle
    among jobs left out does no harm.
    """
    given = list(waits)
    onward: dict[Hashable, list[Hashable]] = {}
    for wait in given:
        onward.setdefault(wait.before, []).append(wait.after)
    kept: dict[tuple[Hashable, Hashable], Wait] = {}
    for wait in given:
        if wait.before in left_out:
            continue
        reached, waiting = {wait.after}, [wait.after]
        while waiting:
            job = waiting.pop()
            if job not in left_out:
                pair = (wait.before, job)
                if pair[0] != pair[1] and (pair not in kept or _is_longer(wait, kept[pair])):
                    passed = wait if job == wait.after else _passed_on(wait)
                    kept[pair] = replace(passed, after=job)
                continue
            fresh = [after for after in onward.get(job, ()) if after not in reached]
            reached.update(fresh)
            waiting += fresh
    return list(kept.values())


def _passed_on(wait: Wait) -> Wait:
    return replace(wait, stage=PASSED_ON.get(wait.stage, wait.stage))


def _is_longer(one: Wait, two: Wait) -> bool:
    return (bool(one.stage), one.wait) > (bool(two.stage), two.wait)
