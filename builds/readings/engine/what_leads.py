"""What comes after what, asked often: a bit for every job, and all that lies ahead of it in one integer."""

from collections.abc import Collection, Hashable, Iterable, Iterator
from typing import Any, Generic, TypeVar

Id = TypeVar("Id", bound=Hashable)


class Order(Generic[Id]):
    """What comes after what; a link that would close a circle is not taken."""

    def __init__(self, links: Iterable[tuple[Id, Id]]) -> None:
        self._index: dict[Id, int] = {}
        self._ahead: list[int] = []
        self._behind: list[int] = []
        for before, after in links:
            self._add(before, after)

    def copy(self) -> "Order[Any]":
        """One of its own, to be added to without this one."""
        other: Order[Any] = Order(())
        other._index, other._ahead, other._behind = dict(self._index), list(self._ahead), list(self._behind)
        return other

    def leads(self, before: Id, after: Id) -> bool:
        """Whether `after` comes after `before`, through however many others."""
        if before not in self._index or after not in self._index:
            return False
        return bool(self._ahead[self._index[after]] >> self._index[before] & 1)

    def leads_any(self, befores: Iterable[Id], after: Id) -> bool:
        """Whether `after` comes after one of them, through however many others."""
        return any(self.leads(before, after) for before in befores)

    def behind(self, before: Id, among: Iterable[Id]) -> list[Id]:
        """Those `among` others that come after it."""
        if before not in self._index:
            return []
        bits, index = self._behind[self._index[before]], self._index
        return [other for other in among if other in index and bits >> index[other] & 1]

    def take(self, before: Id, after: Id) -> bool:
        """Add the link unless it says nothing new or contradicts what is there."""
        if before == after or self.leads(before, after) or self.leads(after, before):
            return False
        self._add(before, after)
        return True

    def _add(self, before: Id, after: Id) -> None:
        first, then = self._index_of(before), self._index_of(after)
        if self._ahead[then] >> first & 1:
            return
        ahead, behind = self._ahead[first] | 1 << first, self._behind[then] | 1 << then
        for index in _indices(behind):
            self._ahead[index] |= ahead
        for index in _indices(ahead):
            self._behind[index] |= behind

    def _index_of(self, job: Id) -> int:
        if job not in self._index:
            self._index[job] = len(self._ahead)
            self._ahead.append(0)
            self._behind.append(0)
        return self._index[job]


def between(links: Iterable[tuple[Id, Id]], ends: Collection[Id]) -> list[tuple[Id, Id]]:
    """The links (before, after) that lie on a way from one of `ends` to another: what comes after what among these is
    told by no other. Linear in the links.
    """
    asked = list(links)
    ahead = _reached(ends, asked)
    behind = _reached(ends, [(after, before) for before, after in asked])
    return [(before, after) for before, after in asked if before in ahead and after in behind]


def _reached(starts: Iterable[Id], links: Iterable[tuple[Id, Id]]) -> set[Id]:
    """These, and all to which the links lead from them."""
    onward: dict[Id, list[Id]] = {}
    for before, after in links:
        onward.setdefault(before, []).append(after)
    reached = set(starts)
    waiting = list(reached)
    while waiting:
        fresh = [after for after in onward.get(waiting.pop(), ()) if after not in reached]
        reached.update(fresh)
        waiting += fresh
    return reached


def _indices(bits: int) -> Iterator[int]:
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest
