"""NameTable looked for in somebody's own words: with or without a hyphen, in the plural, the longest first."""

import re
from collections.abc import Mapping
from functools import cached_property


class NameTable:
    """What names mean: `table` has names, between commas, by the slugs (between blanks) that they lead to.

    A longer name wins over one within it. A blank stands for a blank, a hyphen or nothing, a star for any ending;
    each of its words is known in the plural too. What leads to no slug is heard and means nothing here.
    """

    def __init__(self, table: Mapping[str, str]) -> None:
        listed = [(" ".join(name.split()), slugs) for slugs, names in table.items() for name in names.split(",")]
        self._listed = sorted(listed, key=lambda one: -len(one[0].rstrip("*")))

    def said(self, text: str) -> frozenset[str]:
        """The slugs that words in the text lead to."""
        meant = [self._listed[(name.lastindex or 1) - 1][1].split() for name in self._reader.finditer(plain(text))]
        return frozenset(slug for slugs in meant for slug in slugs)

    @cached_property
    def _reader(self) -> re.Pattern[str]:
        return re.compile(rf"\b(?:{'|'.join(f'({_pattern(name)})' for name, _ in self._listed)})\b")


def plain(text: str) -> str:
    """Small letters, with single blanks for hyphens and whatever else stands between words, and without `the`."""
    words = re.findall(r"[^\W_]+", text.casefold().replace("'s", "").replace("’s", ""))
    return " ".join(word for word in words if word != "the")


def _pattern(name: str) -> str:
    ending = ""
    if name.endswith("*"):
        name, ending = name[:-1], r"\w*"
    elif name.endswith("y"):
        name, ending = name[:-1], "(?:ys?|ies)"
    else:
        ending = "(?:es)?" if name.endswith("s") else "(?:es|s)?"
    return name.replace(" ", "s? ?") + ending
