"""Slips of the fingers in words that lives hang on. Our own choice, no source."""

from functools import lru_cache

LEAST = 5
LONG = 8
_WORDS = (
    *("steering", "suspension", "throttle", "cylinder", "wishbone", "extinguisher"),
    *("brake", "brakes", "wheel", "wheels", "pedal", "damper", "caliper", "calipers", "harness", "petrol", "bearing"),
)


@lru_cache(maxsize=16_384)
def mended(word: str) -> str:
    """The word that was meant, in small letters: two letters that changed places, in a long one a letter wrong.

    A short word is too near to others (brace and brake) for more.
    """
    if len(word) < LEAST or word in _WORDS:
        return word
    meant = (known for known in _WORDS if _swapped(word, known) or (len(known) >= LONG and _one_off(word, known)))
    return next(meant, word)


def _swapped(word: str, known: str) -> bool:
    if len(word) != len(known):
        return False
    first = next((place for place, letter in enumerate(known) if letter != word[place]), len(known))
    return word == f"{known[:first]}{known[first + 1 : first + 2]}{known[first : first + 1]}{known[first + 2 :]}"


def _one_off(word: str, known: str) -> bool:
    """A letter wrong, too many or too few."""
    if abs(len(word) - len(known)) > 1:
        return False
    short, long = sorted((word, known), key=len)
    first = next((place for place, letter in enumerate(short) if letter != long[place]), len(short))
    return short[first + (len(short) == len(long)) :] == long[first + 1 :]
