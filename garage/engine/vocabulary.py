"""Fixed lists of words: find one by its slug, refuse one that is not there."""

from collections.abc import Collection, Iterable
from typing import Protocol, TypeVar


class Slugged(Protocol):
    """Anything that carries a slug."""

    @property
    def slug(self) -> str: ...


T = TypeVar("T", bound=Slugged)


def by_slug(items: Iterable[T]) -> dict[str, T]:
    """The items under their slugs, in the order given."""
    return {item.slug: item for item in items}


def known(slugs: Iterable[str], vocabulary: Collection[str], noun: str) -> frozenset[str]:
    """The slugs as a set; ValueError with one sentence when one is not in the vocabulary."""
    slugs = frozenset(slugs)
    if strange := sorted(slugs.difference(vocabulary)):
        raise ValueError(f"{strange[0]!r} is not a known {noun}.")
    return slugs
