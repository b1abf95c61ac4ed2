"""Measuring once after all the work that disturbs: which job takes which reading, and when."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.vocabulary import READINGS, in_measuring_order

Pair = tuple[int, int]


@dataclass(frozen=True, slots=True)
class OpenJob:
    """A job still to do: the kinds of work in it, and the readings that it takes (slugs)."""

    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Once:
    """`links` (before, after) put work before the job that measures after it anyway.

    `rest` are readings (slugs) that no such job takes; `before` the jobs that come before
    these are measured.
    """

    links: tuple[Pair, ...] = ()
    rest: tuple[str, ...] = ()
    before: tuple[int, ...] = ()


class _Order:
    """What comes after what, through links that may be added to."""

    def __init__(self, links: Iterable[Pair]) -> None:
        self.onward: dict[int, set[int]] = {}
        for before, after in links:
            self.add(before, after)

    def add(self, before: int, after: int) -> None:
        self.onward.setdefault(before, set()).add(after)

    def leads(self, before: int, after: int) -> bool:
        seen, waiting = {before}, [before]
        while waiting:
            for each in self.onward.get(waiting.pop(), ()):
                if each == after:
                    return True
                if each not in seen:
                    seen.add(each)
                    waiting.append(each)
        return False


def measure_once(need: Collection[str], jobs: Mapping[int, OpenJob], links: Iterable[Pair]) -> Once:
    """Who measures the readings needed (slugs), each once, after all open work that voids it.

    A job that takes a reading is used when none of that work has to come after it; of several
    the one with the highest id. `links` are the (before, after) of all jobs there are. Returns
    the links to add; none of them closes a circle. ValueError for unknown kinds and readings.
    """
    order, added = _Order(links), []
    voids = {id: voided_by(job.kinds) for id, job in jobs.items()}
    rest, before, measuring = [], set(), {}
    for slug in in_measuring_order(need):
        disturbing = [id for id in jobs if slug in voids[id]]
        taker = _taker(slug, jobs, disturbing, order)
        if taker is None:
            rest.append(slug)
            before.update(disturbing)
            continue
        measuring[slug] = taker
        for id in disturbing:
            if id != taker and not order.leads(id, taker):
                order.add(id, taker)
                added.append((id, taker))
    # What the rest rests on is measured before it, also where another job does that.
    before.update(measuring[base] for base in _bases(rest) if base in measuring)
    last = [id for id in before if not any(order.leads(id, each) for each in before if each != id)]
    return Once(tuple(added), tuple(rest), tuple(sorted(last)))


def _taker(slug: str, jobs: Mapping[int, OpenJob], disturbing: Collection[int], order: _Order) -> int | None:
    fit = [
        id
        for id, job in jobs.items()
        if slug in job.measures and not any(order.leads(id, each) for each in disturbing if each != id)
    ]
    return max(fit, default=None)


def _bases(slugs: Iterable[str]) -> set[str]:
    found: set[str] = set()
    waiting = list(slugs)
    while waiting:
        for base in READINGS[waiting.pop()].rests_on:
            if base not in found:
                found.add(base)
                waiting.append(base)
    return found
