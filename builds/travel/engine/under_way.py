"""Who or what is on the way, or there, at the same time."""

from collections.abc import Iterator
from datetime import datetime
from typing import Protocol, TypeVar


class UnderWay(Protocol):
    """Gone from `leaves` until `back` (aware)."""

    @property
    def leaves(self) -> datetime: ...

    @property
    def back(self) -> datetime: ...


Going = TypeVar("Going", bound=UnderWay)


def at_once(group: list[Going]) -> Iterator[list[Going]]:
    """Of the group those that are under way together: whenever one leaves, with whatever is not back."""
    under_way = dict.fromkeys(
        tuple(other for other in group if other.leaves <= going.leaves < other.back) for going in group
    )
    for together in under_way:
        if len(together) > 1 and not any(set(together) < set(more) for more in under_way):
            yield list(together)
