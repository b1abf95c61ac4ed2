"""Slips of the fingers in words that lives hang on. Our own choice, no source."""

from functools import lru_cache

from rapidfuzz.distance import OSA

LEAST = 5
DROPPED = 7
LONG = 8
_WORDS = (
    *("steering", "suspension", "throttle", "cylinder", "wishbone", "extinguisher"),
    *("brake", "brakes", "wheel", "wheels", "pedal", "damper", "caliper", "calipers", "harness", "petrol", "bearing"),
    *("gearbox", "driveshaft", "halfshaft", "propshaft", "differential", "subframe", "crossmember", "chassis"),
    *("battery", "windscreen", "radiator", "bearings", "seized"),
)


@lru_cache(maxsize=16_384)
def mended(word: str) -> str:
    """The word that was meant, in small letters: two letters that changed places, in a long one a letter wrong.

    One that was dropped within a word, or written twice, changes it less. A short word is too near to others (brace
    and brake) for more.
    """
    if len(word) < LEAST or word in _WORDS:
        return word
    return next((known for known in _WORDS if _near(word, known)), word)


def _near(word: str, known: str) -> bool:
    if OSA.distance(word, known, score_cutoff=1) != 1:
        return False
    within = len(known) >= DROPPED and len(word) != len(known) and (word[0], word[-1]) == (known[0], known[-1])
    return len(known) >= LONG or within or sorted(word) == sorted(known)
