"""Which names a few typed words mean, although letters may be wrong, missing or turned round."""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from rapidfuzz import process
from rapidfuzz.distance import OSA

WORD = re.compile(r"[^\W_]+")
MOST_WORDS, MOST_LETTERS = 8, 30


def slips_forgiven(letters: int) -> int:
    """How many slips a typed word of so many letters may have. Chosen by trying; no source."""
    return 0 if letters < 4 else 1 if letters < 6 else 2


def words_in(text: str) -> tuple[str, ...]:
    """Folded: small letters without accents. What stands between letters and figures parts words."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return tuple(WORD.findall("".join(letter for letter in plain if not unicodedata.combining(letter))))


@dataclass(frozen=True)
class Index:
    """The words of each name, and of what stands beside it after the first `own` of them; the places of those that have
    a word with this beginning."""

    words: tuple[tuple[str, ...], ...]
    own: tuple[int, ...]
    begins: dict[str, frozenset[int]]


def indexed(names: Sequence[tuple[str, str]]) -> Index:
    """Of each a name, and what stands beside it: a car, a number, other words for it."""
    words = tuple((*words_in(name), *words_in(beside)) for name, beside in names)
    begins: dict[str, set[int]] = defaultdict(set)
    for place, said in enumerate(words):
        for word in said:
            for length in range(1, min(len(word), MOST_LETTERS) + 1):
                begins[word[:length]].add(place)
    own = tuple(len(words_in(name)) for name, _ in names)
    return Index(words, own, {begin: frozenset(places) for begin, places in begins.items()})


def meant(typed: str, index: Index, most: int) -> list[int]:
    """Places of the names that every typed word is in, the fewest slips first, ties in the order given.

    What only a slip finds is told where nothing is found without one, what stands beside a name alone where no name is
    found.
    """
    words = [word[:MOST_LETTERS] for word in words_in(typed)[:MOST_WORDS]]
    if not words:
        return []
    slips = [_slips_in(word, index) for word in words]
    there = set.intersection(*(set(scores) for scores in slips))
    left = {place: sum(scores[place] for scores in slips) for place in there}
    weak = {place: (_beside(index, place, words), count > 0) for place, count in left.items()}
    least = min(weak.values(), default=None)
    strong = (place for place in left if weak[place] == least)
    return sorted(strong, key=lambda place: (left[place], _more(index, place, words), place))[:most]


def _beside(index: Index, place: int, words: Sequence[str]) -> int:
    """How many of the typed words are none of the name's own."""
    own = index.words[place][: index.own[place]]
    return sum(not any(_begins(word, said) for said in own) for word in words)


def _begins(typed: str, said: str) -> bool:
    """Whether a typed word is, but for the slips that are forgiven, a beginning of another."""
    most = slips_forgiven(len(typed))
    lengths = range(max(1, len(typed) - most), min(len(said), len(typed) + most) + 1)
    return any(OSA.distance(typed, said[:length], score_cutoff=most) <= most for length in lengths)


def _slips_in(word: str, index: Index) -> dict[int, int]:
    """By place the least slips from this word to a beginning of one of the name's, where they are few enough.

    A slip is a letter that is wrong, missing, too many or turned round with its neighbour (the distance of optimal
    string alignment).
    """
    most = slips_forgiven(len(word))
    least: dict[int, int] = {}
    alike = process.extract(word, index.begins.keys(), scorer=OSA.distance, score_cutoff=most, limit=None)
    for begin, number, _ in alike:  # nearest first
        for place in index.begins[begin]:
            least.setdefault(place, int(number))
    return least


def _more(index: Index, place: int, words: Sequence[str]) -> tuple[int, int]:
    """Fewer typed words that are none of the name's, then fewer words that nobody typed."""
    said = index.words[place]
    return sum(word not in said for word in words), len(said)
