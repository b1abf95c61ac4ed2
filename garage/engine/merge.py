"""Two versions of the same fields, and the one that both were made from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Values = Mapping[str, Sequence[str]]


@dataclass(frozen=True)
class Merged:
    """`taken` are the values that another wrote and this one left alone; `clashes` the fields that both changed."""

    taken: dict[str, list[str]]
    clashes: tuple[str, ...]


def merged(was: Values, stands: Values, typed: Values) -> Merged:
    """Each field of `stands` by itself, against what it was when the form of `typed` was drawn.

    A field that `was` or `typed` lacks was empty then. Two who changed a field to the same agree.
    """
    taken, clashes = {}, []
    for name, now in stands.items():
        before, mine, now = list(was.get(name, ())), list(typed.get(name, ())), list(now)
        if now in (before, mine):
            continue
        if mine == before:
            taken[name] = now
        else:
            clashes.append(name)
    return Merged(taken, tuple(clashes))
