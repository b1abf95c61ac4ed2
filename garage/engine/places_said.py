"""What somebody's own words name only as a place: “behind the seat”, “next to the tank”. Common practice, no source."""

import re

from garage.engine.names_said import NameTable, plain

# Not “near side”, “under seal”: names of other things.
_BEFORE = (
    r"behind|under(?![\s-]?(?:seal|tray|coat|side|body|steer))|underneath|beneath|below|next to|beside|alongside"
    r"|near(?![\s-]?side)|close to|adjacent to|above|in front of|ahead of|opposite|between"
    r"|at the (?:back|rear|front) of"
)
_PLACE = re.compile(rf"\b({_BEFORE})\s+", re.IGNORECASE)
_ENDS = re.compile(r"[,;:.!?()–—]|\s-\s")
# Said of a place beside its name.
_WHICH = frozenset(
    {
        *("a", "an", "my", "its", "his", "her", "this", "that", "each", "all", "both", "to", "old", "new"),
        *("rear", "front", "left", "right", "middle", "centre", "center", "inner", "outer", "upper", "lower", "side"),
        *("o", "n", "s", "os", "ns", "osf", "nsf", "osr", "nsr", "offside", "nearside", "driver", "passenger"),
    }
)


def beside_places(text: str, names: NameTable) -> tuple[str, str]:
    """The words of the text without those places that these names know, and the places; nothing changes without one."""
    left: list[str] = []
    places: list[str] = []
    for clause in _ENDS.split(text):
        head, *rest = _PLACE.split(clause)
        left.append(head)
        for before, after in zip(rest[::2], rest[1::2], strict=True):
            place, more = _cut(plain(after).split(), names, pair=before.lower() == "between")
            left += [*(() if place else (before,)), *more]
            places += place
    return (" ".join(left), " ".join(places)) if places else (text, "")


def _cut(words: list[str], names: NameTable, *, pair: bool) -> tuple[list[str], list[str]]:
    """The name that the words begin with, and the rest; `pair` where a second one may follow."""
    at = 0
    while at < len(words) and words[at] in _WHICH:
        at += 1
    named = at
    while (many := names.begins(words[named:])) > 0:
        named += many
    if named == at:
        return [], words
    if pair and words[named : named + 1] == ["and"]:
        other, rest = _cut(words[named + 1 :], names, pair=False)
        return [*words[:named], *other], rest
    return words[:named], words[named:]
