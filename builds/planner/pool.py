"""The good drafts a search keeps: the best of them by one measure, and not too many that fail alike."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from random import Random

from builds.planner.aim import Aim
from builds.planner.place import Draft, Places
from builds.planner.plan import Score

RIVALS = 3
"""Drafts drawn for each parent; the best of them it is."""

ALIKE = 3
"""Drafts kept that are late with the same jobs; so that a pool does not settle on one kind."""


class Candidate:
    """A draft, how it was placed, what is late, what that is worth, and how near it is; ordered by worth."""

    __slots__ = ("draft", "late", "near", "places", "value")

    def __init__(self, draft: Draft, places: Places, aim: Aim) -> None:
        self.draft, self.places = draft, places
        self.late, self.value = aim.late(places.end), aim.value(places)
        self.near = aim.near(self.value, self.late, places.end)

    def __lt__(self, other: Candidate) -> bool:
        return self.value < other.value


class Pool:
    """At most `size` candidates, the least by `measure` first."""

    def __init__(self, size: int, measure: Callable[[Candidate], Score]) -> None:
        self.size, self.measure, self.kept = size, measure, list[Candidate]()

    def parent(self, random: Random) -> Candidate:
        """One of those kept, the better ones more often."""
        count = len(self.kept)
        return self.kept[min(random.randrange(count) for _ in range(RIVALS))]

    def join(self, candidate: Candidate) -> bool:
        """Take the candidate in if it is good enough; true when it is the best, and better than the next."""
        kept, measure, mine = self.kept, self.measure, self.measure(candidate)
        if len(kept) >= self.size and measure(kept[-1]) < mine:
            return False
        position = bisect_left(kept, mine, key=measure)
        for other in kept[position:]:
            if measure(other) != mine:
                break
            if other.places.end == candidate.places.end:
                return False
        if candidate.late:
            alike = [k for k, other in enumerate(kept) if other.late == candidate.late]
            if len(alike) >= ALIKE:
                if alike[-1] < position:
                    return False
                del kept[alike[-1]]
        kept.insert(position, candidate)
        del kept[self.size :]
        return position == 0 and (len(kept) == 1 or mine < measure(kept[1]))
