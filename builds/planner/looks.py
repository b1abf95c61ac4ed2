"""From when on what waits for looked-at work may start, whoever of its possible crews does it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from itertools import chain, pairwise, repeat

from builds.planner.crews import Roster
from builds.planner.problem import Job, Link

Table = tuple[int, ...]


class Looks:
    """Tables of a problem: `table[k]` is the first slot after an end at slot k in which somebody looked.

    The crew of a job is not known before it is placed, so a table holds for each that may end it there: those who
    are in as it ends, anybody where there is no work to be in for. What nobody but its crew could look at waits for
    nobody.
    """

    def __init__(self, roster: Roster, slots: int) -> None:
        self.roster, self.slots = roster, slots
        self.ends = [[end for _, end in hours] for hours in roster.hours]
        self.tables: dict[tuple[object, ...], Table | None] = {}

    def opens(self, link: Link, job: Job) -> Table | None:
        """The ready times of a link behind a job (its `before`): its own, and somebody has looked; None without any."""
        looked = self.table(job)
        if looked is None:
            return link.ready
        if link.ready is None and not link.wait:
            return looked
        own = link.ready or range(link.wait, link.wait + self.slots + 1)
        return tuple(map(max, own, looked))

    def table(self, job: Job) -> Table | None:
        """None where it makes no difference; jobs that ask for the same share the answer."""
        if not job.eyes:
            return None
        kind = (job.eyes, job.hands, job.skill, job.crew, job.work > 0)
        if kind not in self.tables:
            table = tuple(chain.from_iterable(self._stretches(job)))
            self.tables[kind] = None if table == tuple(range(self.slots + 1)) else table
        return self.tables[kind]

    def _stretches(self, job: Job) -> Iterator[Iterable[int]]:
        """Between two moments at which somebody comes or goes; the slots never fall."""
        roster, low = self.roster, 0
        eyes = {roster.numbers[name] for name in job.eyes or ()}
        groups = roster.groups(job) if job.hands else [()]
        edges = {0, self.slots + 1, *(edge + 1 for hours in roster.hours for span in hours for edge in span)}
        for begin, end in pairwise(sorted(edge for edge in edges if edge <= self.slots + 1)):
            last = max(0, begin - 1)  # the slot in which work that ends here is done
            here = {k for k in range(len(roster.hours)) if self._seen(k, last) == last}
            crews = [crew for crew in groups if here.issuperset(crew)] if job.work else groups
            others = {frozenset(eyes.difference(crew)) for crew in crews}
            looked = [min(self._seen(k, last) for k in look) for look in others if look]
            low = max([low, *(slot for slot in looked if slot > last)])
            kept = min(max(low, begin), end)
            yield repeat(low, kept - begin)
            yield range(kept, end)

    def _seen(self, person: int, slot: int) -> int:
        """The first slot from there on in which that person is in, one past the horizon for none."""
        hours = self.roster.hours[person]
        at = bisect_right(self.ends[person], slot)
        return max(hours[at][0], slot) if at < len(hours) else self.slots + 1
