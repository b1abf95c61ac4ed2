"""Which part a job's own words ask for: a new one, or one that is replaced. Common practice, no source."""

import re
from dataclasses import dataclass

from garage.engine.systems_said import fault_said

_NEW = re.compile(r"\b(?:(\d{1,2})\s*(?:x\s*)?)?new\s+((?:[^,;:.!?()–—+&/]|(?<=\b\w)/(?=\w))+)", re.IGNORECASE)
_RENEWED = re.compile(
    r"^(?:replace|renew|order|buy)\s+(?:(\d{1,2})\s+)?((?:[^,;:.!?()–—+&/]|(?<=\b\w)/(?=\w))+)", re.IGNORECASE
)
# `rear shock leaks - new pair`, `tyre has a nail, plug or new`: what is new is named before it.
_ONES = re.compile(
    r"^(.*?)[\s,:–—-]+(?:\w+\s+or\s+|needs?\s+|fit\s+|order\s+|buy\s+)?new(?:\s+(pair|ones?|set))?\s*$", re.IGNORECASE
)
_ENDS = re.compile(
    r"\s+(?:-|out|for|on|to|in|at|and|then|with|before|after|because|as|from|has|have|is|are"
    r"|behind|under|underneath|beneath|below|above|near|next|beside|between|alongside)\s.*|\s+-$"
)
_BEFORE = re.compile(r"^(?:the|a|an|both|all|old|some|one)\s+", re.IGNORECASE)
_NO_PARTS = frozenset(
    {"start", "owner", "year", "one", "ones", "position", "figure", "plan", "list", "place", "driver"}
)
LEAST, LONGEST = 2, 120


@dataclass(frozen=True, slots=True)
class PartSaid:
    """`name` as written, and how many."""

    name: str
    many: int = 1


def part_said(title: str) -> PartSaid | None:
    """The part that the words of a job ask for; None where they name none."""
    if ones := _ONES.match(title):
        name = _sound(ones[1])
        return _part(name, 2 if (ones[2] or "").lower() == "pair" else 1)
    for pattern in (_RENEWED, _NEW):
        if found := pattern.search(title):
            many, name = int(found[1] or 1), found[2]
            pair = re.match(r"(?:a\s+)?pair of\s+", name, re.IGNORECASE)
            return _part(name[pair.end() :] if pair else name, 2 if pair else many)
    return None


def _sound(words: str) -> str:
    """As far as they say no fault: `N/S rear shock`, of a shock that leaks."""
    said = words.split()
    while said and fault_said(" ".join(said)):
        said.pop()
    return " ".join(said)


def _part(name: str, many: int) -> PartSaid | None:
    name = _BEFORE.sub("", _ENDS.sub("", f" {name.strip()} ").strip()).strip(" -")
    if len(name) < LEAST or name.lower() in _NO_PARTS or many < 1:
        return None
    return PartSaid(name[:LONGEST], many)
