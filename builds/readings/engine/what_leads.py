"""What comes after what, asked often: a bit for every job, and all that lies ahead of it in one integer."""

from collections.abc import Hashable, Iterable, Iterator
from typing import Any, Generic, TypeVar

Id = TypeVar("Id", bound=Hashable)


class Order(Generic[Id]):
    """What comes after what; a link that would close a circle is not taken."""

    def __init__(self, links: Iterable[tuple[Id, Id]]) -> None:
        self._place: dict[Id, int] = {}
        self._ahead: list[int] = []
        self._behind: list[int] = []
        for before, after in links:
            self._add(before, after)

    def copy(self) -> "Order[Any]":
        """One of its own, to be added to without this one."""
        other: Order[Any] = Order(())
        other._place, other._ahead, other._behind = dict(self._place), list(self._ahead), list(self._behind)
        return other

    def leads(self, before: Id, after: Id) -> bool:
        """Whether `after` comes after `before`, through however many others."""
        if before not in self._place or after not in self._place:
            return False
        return bool(self._ahead[self._place[after]] >> self._place[before] & 1)

    def leads_any(self, befores: Iterable[Id], after: Id) -> bool:
        """Whether `after` comes after one of them, through however many others."""
        return any(self.leads(before, after) for before in befores)

    def take(self, before: Id, after: Id) -> bool:
        """Add the link unless it says nothing new or contradicts what is there."""
        if before == after or self.leads(before, after) or self.leads(after, before):
            return False
        self._add(before, after)
        return True

    def _add(self, before: Id, after: Id) -> None:
        first, then = self._known(before), self._known(after)
        if self._ahead[then] >> first & 1:
            return
        ahead, behind = self._ahead[first] | 1 << first, self._behind[then] | 1 << then
        for place in _places(behind):
            self._ahead[place] |= ahead
        for place in _places(ahead):
            self._behind[place] |= behind

    def _known(self, job: Id) -> int:
        if job not in self._place:
            self._place[job] = len(self._ahead)
            self._ahead.append(0)
            self._behind.append(0)
        return self._place[job]


def _places(bits: int) -> Iterator[int]:
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest
