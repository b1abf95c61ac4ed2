"""Urgency inherited backwards along the links, and the circle when links run in one."""

from collections import deque
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from builds.work.engine.ranks import RANKS

Id = TypeVar("Id", bound=Hashable)

SPELLED_OUT = 12


@dataclass(frozen=True, slots=True)
class Urgency(Generic[Id]):
    """A job's rank once inheritance is counted: whose it is, and the next job on the way there."""

    rank: str
    inherited_from: Id | None = None
    next_on_path: Id | None = None


def inherited(jobs: Mapping[Id, str], links: Iterable[tuple[Id, Id]]) -> dict[Id, Urgency[Id]]:
    """The urgency of every job: its own rank, or the higher rank of a job that waits for it.

    `jobs` gives job id -> rank, `links` are (before, after). Among several causes the one fewest
    links away is named, then the one given first. A link to a job not given (done, dropped) passes
    nothing on; circles do no harm here. Linear in jobs and links. KeyError for an unknown rank.
    """
    waits_for: dict[Id, list[Id]] = {job: [] for job in jobs}
    for before, after in links:
        if before in jobs and after in jobs:
            waits_for[after].append(before)
    urgency: dict[Id, Urgency[Id]] = {}
    by_rank: dict[str, list[Id]] = {rank: [] for rank in RANKS}
    for job, rank in jobs.items():
        by_rank[rank].append(job)
    for rank, own in by_rank.items():
        reached = deque(job for job in own if job not in urgency)
        urgency.update((job, Urgency(rank)) for job in reached)
        while reached:
            after = reached.popleft()
            cause = urgency[after].inherited_from
            for before in waits_for[after]:
                if before not in urgency:
                    urgency[before] = Urgency(rank, after if cause is None else cause, after)
                    reached.append(before)
    return {job: urgency[job] for job in jobs}


def find_cycle(links: Iterable[tuple[Id, Id]]) -> tuple[Id, ...] | None:
    """Jobs that wait for one another in a circle, each waiting for the next, or None.

    `links` are (before, after). Linear in the links and without recursion.
    """
    waits_for: dict[Id, list[Id]] = {}
    for before, after in links:
        waits_for.setdefault(after, []).append(before)
    done: set[Id] = set()
    for first, its_own in waits_for.items():
        if first in done:
            continue
        trail = {first: iter(its_own)}  # insertion order is the way walked
        while trail:
            job = next(reversed(trail))
            for before in trail[job]:
                if before in trail:
                    walked = list(trail)
                    return tuple(walked[walked.index(before) :])
                if before not in done and before in waits_for:
                    trail[before] = iter(waits_for[before])
                    break
            else:
                done.add(job)
                del trail[job]
    return None


def cycle_sentence(cycle: tuple[Id, ...], titles: Mapping[Id, str]) -> str:
    """The circle in words: “Weld the arm” waits for “Prime the arm”, which waits for “Weld the arm”.

    `cycle` as `find_cycle` returns it; a circle of more than a dozen jobs is shortened.
    """
    names = [f"“{titles[job]}”" for job in cycle]
    if len(names) == 1:
        return f"{names[0]} waits for itself."
    if (left_out := len(names) - SPELLED_OUT) > 0:
        names[SPELLED_OUT:] = [f"{left_out} more in turn"]
    rest = ", which waits for ".join([*names[1:], names[0]])
    return f"{names[0]} waits for {rest}."
