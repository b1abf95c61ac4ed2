"""Which names a few typed words mean, although letters may be wrong, missing or turned round."""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

WORD = re.compile(r"[^\W_]+")
# Share of the pairs of letters of a typed word that a name must have to be looked at closer.
LIKELY = 0.3
MOST_WORDS, MOST_LETTERS = 8, 30


def slips_forgiven(letters: int) -> int:
    """How many slips a typed word of so many letters may have. Chosen by trying; no source."""
    return 0 if letters < 4 else 1 if letters < 6 else 2


@lru_cache(maxsize=40_000)
def pairs_of(word: str) -> frozenset[str]:
    """Of a folded word each two letters that stand together, its beginning marked: `pad` has `^p`, `pa`, `ad`."""
    return frozenset(first + second for first, second in zip(f"^{word}", word, strict=False))


@lru_cache(maxsize=40_000)
def slips(typed: str, word: str) -> int:
    """How many letters are wrong, missing, too many or turned round, from `typed` to a beginning of `word`.

    Source: distance by optimal string alignment (Damerau 1964 as restricted since), least over all beginnings.
    """
    before, last = list(range(len(word) + 1)), [0] * (len(word) + 1)
    for number, letter in enumerate(typed, 1):
        now = [number]
        for place, other in enumerate(word, 1):
            cost = min(before[place] + 1, now[place - 1] + 1, before[place - 1] + (letter != other))
            if number > 1 and place > 1 and letter == word[place - 2] and typed[number - 2] == other:
                cost = min(cost, last[place - 2] + 1)
            now.append(cost)
        last, before = before, now
    return min(before)


@lru_cache(maxsize=40_000)
def words_in(text: str) -> tuple[str, ...]:
    """Folded: small letters without accents. What stands between letters and figures parts words."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return tuple(WORD.findall("".join(letter for letter in plain if not unicodedata.combining(letter))))


@dataclass(frozen=True)
class Index:
    """Names by their place; by each pair of letters the places of the names that have it."""

    names: Sequence[str]
    places: dict[str, tuple[int, ...]]


def indexed(names: Sequence[str]) -> Index:
    places: dict[str, list[int]] = defaultdict(list)
    for place, name in enumerate(names):
        for pair in {pair for word in words_in(name) for pair in pairs_of(word)}:
            places[pair].append(place)
    return Index(names, {pair: tuple(there) for pair, there in places.items()})


def meant(typed: str, index: Index, most: int) -> list[int]:
    """Places of the names that every typed word is in, the fewest slips first, ties in the order given."""
    words = [word[:MOST_LETTERS] for word in words_in(typed)[:MOST_WORDS]]
    if not words:
        return []
    first, *others = [_slips_in(word, index) for word in words]
    left = {place: [number, *(other[place] for other in others)]
            for place, number in first.items() if all(place in other for other in others)}  # fmt: skip
    ranked = sorted(left, key=lambda place: (sum(left[place]), _whole(index.names[place], words), place))
    return ranked[:most]


def _slips_in(word: str, index: Index) -> dict[int, int]:
    """By place the least slips from this word to one of the name's, where they are few enough."""
    counts: dict[int, int] = defaultdict(int)
    for pair in pairs_of(word):
        for place in index.places.get(pair, ()):
            counts[place] += 1
    enough = LIKELY * len(pairs_of(word))
    likely = (place for place, count in counts.items() if count >= enough)
    least = {place: min(slips(word, other) for other in words_in(index.names[place])) for place in likely}
    return {place: number for place, number in least.items() if number <= slips_forgiven(len(word))}


def _whole(name: str, words: Sequence[str]) -> tuple[int, int]:
    """Fewer typed words that are none of the name's, then fewer words that nobody typed."""
    said = words_in(name)
    return sum(word not in said for word in words), len(said)
