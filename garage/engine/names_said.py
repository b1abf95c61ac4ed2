"""Names looked for in somebody's own words: with or without a hyphen, in the plural, the longest first."""

import re
from collections.abc import Iterator, Mapping
from itertools import product

from garage.engine.letters import as_meant
from garage.engine.slips import mended


class NameTable:
    """What names mean: `table` has names, between commas, by the slugs (between blanks) that they lead to.

    A longer name wins over one within it. Blanks and hyphens count for nothing, a star stands for any ending, and each
    word of a name is known in the plural too. What leads to no slug is heard and means nothing here. ValueError for
    a name that stands there twice.
    """

    def __init__(self, table: Mapping[str, str]) -> None:
        self._slugs: dict[str, frozenset[str]] = {}
        self._beginnings: dict[str, frozenset[str]] = {}
        self._most = 1  # words of the longest name
        for slugs, names in table.items():
            for name in names.split(","):
                words = name.split()
                self._most = max(self._most, len(words))
                whole = "".join(words)
                if whole in self._slugs or whole.rstrip("*") in self._beginnings:
                    raise ValueError(f"“{name.strip()}” stands there twice.")
                kept = self._beginnings if whole.endswith("*") else self._slugs
                kept[whole.rstrip("*")] = frozenset(slugs.split())

    def said(self, text: str) -> frozenset[str]:
        """The slugs that words in the text lead to."""
        return frozenset[str]().union(*(slugs for _, slugs in self._heard(text)))

    def unheard(self, text: str) -> str:
        """The words of the text that lead to no slug."""
        return " ".join(word for words, slugs in self._heard(text) if not slugs for word in words)

    def begins(self, words: list[str]) -> int:
        """How many of the words are a name that they begin with, and that leads somewhere; 0 where none is."""
        many, slugs = self._longest(words[: self._most])
        return many if slugs else 0

    def _heard(self, text: str) -> Iterator[tuple[list[str], frozenset[str]]]:
        """All words of the text, name by name, with what each leads to."""
        words, place = plain(text).split(), 0
        while place < len(words):
            many, slugs = self._longest(words[place : place + self._most])
            yield words[place : place + many], slugs
            place += many

    def _longest(self, words: list[str]) -> tuple[int, frozenset[str]]:
        """How many of the words make the longest name that they begin with, and what it leads to; 1 where none does."""
        for many in range(len(words), 0, -1):
            for name in map("".join, product(*map(_singulars, words[:many]))):
                if name in self._slugs:
                    return many, self._slugs[name]
            before = sum(map(len, words[: many - 1]))
            whole = "".join(words[:many])
            for end in range(len(whole), before, -1):
                if whole[:end] in self._beginnings:
                    return many, self._beginnings[whole[:end]]
        return 1, frozenset()


def plain(text: str) -> str:
    """Small letters, with single blanks for hyphens and whatever else stands between words, and without `the`.

    What is plainly a slip in a word that lives hang on is the word that was meant.
    """
    words = re.findall(r"[^\W_]+", as_meant(text).replace("'s", "").replace("’s", ""))
    return " ".join(mended(word) for word in words if word != "the")


def _singulars(word: str) -> Iterator[str]:
    """The word, and what it may be the plural of."""
    yield word
    if word.endswith("s"):
        yield word[:-1]
    if word.endswith("es"):
        yield word[:-2]
    if word.endswith("ies"):
        yield f"{word[:-3]}y"
