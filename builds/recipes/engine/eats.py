"""What a job of a recipe uses: parts and consumables in plain words, with how much of each."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from parts.engine.words import amount_words

LONGEST = 120
MOST = 1_000_000
_BESIDE = re.compile(r"[^\w\s-]|\b(?:for|with)\b|\b\d", re.IGNORECASE)  # from here on a name tells of what sort it is
_LINE = re.compile(r"(\d{1,7}) (?:(ml|g|mm) )?(\S.*)")


@dataclass(frozen=True, slots=True)
class Eaten:
    """So much of something, in pieces, ml, g or mm."""

    name: str
    quantity: int
    unit: str

    @property
    def words(self) -> str:
        return f"{self.name}, {amount_words(self.unit, self.quantity)}"


def eaten(line: str) -> Eaten:
    """`1000 ml brake fluid` or `4 split pins`; ValueError with the end of a sentence."""
    match = _LINE.fullmatch(line)
    if not match or not 1 <= int(match[1]) <= MOST or len(line) > LONGEST:
        raise ValueError(f"eats {line[:60]!r}, which is not an amount and a name")
    return Eaten(match[3], int(match[1]), match[2] or "piece")


def bought(line: str) -> Eaten:
    """`4 brake hoses`, or `hub nut` for one of them: what a job of a recipe needs, in pieces where it says no unit."""
    try:
        return eaten(line)
    except ValueError:
        return Eaten(line[:LONGEST], 1, "piece")


def same(name: str, other: str) -> bool:
    """Whether two names mean one thing: the same words in any order, plural or not."""
    return words_of(name) == words_of(other)


def answers(name: str, other: str) -> bool:
    """Whether `other` is a kind of `name`: it has all of its words."""
    return words_of(name) <= words_of(other)


def is_one(name: str, other: str) -> bool:
    """Whether `other` is a thing of that one word: `tyres` of `Wet tyre, 13 in`, and not of `Tyre gauge`."""
    called = re.findall(r"[^\W_]+", _BESIDE.split(other, maxsplit=1)[0])
    return bool(called) and words_of(name) == words_of(called[-1])


@lru_cache(maxsize=32_768)
def words_of(name: str) -> frozenset[str]:
    """In small letters, each as of one thing."""
    return frozenset(word.rstrip("s") for word in re.findall(r"[^\W_]+", name.casefold()))


def best(name: str, names: Iterable[str]) -> int | None:
    """Which of `names` (index) is meant: the one that is the same, else the only kind of it."""
    listed = list(names)
    for alike in (same, answers):
        alike_at = [at for at, other in enumerate(listed) if alike(name, other)]
        if alike_at:
            return alike_at[0] if len(alike_at) == 1 else None
    return None
