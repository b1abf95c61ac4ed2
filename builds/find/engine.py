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
    """The words of each name; the places of the names that have a word with this beginning."""

    words: tuple[tuple[str, ...], ...]
    begins: dict[str, frozenset[int]]


def indexed(names: Sequence[str]) -> Index:
    words = tuple(words_in(name) for name in names)
    begins: dict[str, set[int]] = defaultdict(set)
    for place, said in enumerate(words):
        for word in said:
            for length in range(1, min(len(word), MOST_LETTERS) + 1):
                begins[word[:length]].add(place)
    return Index(words, {begin: frozenset(places) for begin, places in begins.items()})


def meant(typed: str, index: Index, most: int) -> list[int]:
    """Places of the names that every typed word is in, the fewest slips first, ties in the order given."""
    words = [word[:MOST_LETTERS] for word in words_in(typed)[:MOST_WORDS]]
    if not words:
        return []
    slips = [_slips_in(word, index) for word in words]
    left = set.intersection(*(set(scores) for scores in slips))
    ranked = sorted(left, key=lambda place: (sum(scores[place] for scores in slips), _more(index, place, words), place))
    return ranked[:most]


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
