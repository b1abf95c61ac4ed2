"""Sizes as people write them: decimal points and commas, vulgar fractions, inches."""

import re
import unicodedata
from fractions import Fraction

INCH = Fraction(254, 10)
LONGEST = 80
NUMBER = re.compile(r"[0-9]{1,4}(?:[.,][0-9]{1,4})?")
MIXED = re.compile(r"(?:([0-9]{1,2})[ -])?([0-9]{1,2})/([0-9]{1,2})")


class FitError(ValueError):
    """One sentence about a size that cannot be read."""


def tidy(text: str) -> str:
    """One line with plain signs: `½` as ` 1/2`, every times sign as x, quotes as inch marks.

    FitError when it is longer than 80 characters.
    """
    if len(text) > LONGEST:
        raise FitError(f"That is {len(text)} characters long: {LONGEST} is the most.")
    spaced = re.sub(r"(?<=[0-9])(?=[¼-¾⅐-⅞])", " ", text)
    plain = unicodedata.normalize("NFKC", spaced).replace("⁄", "/")
    plain = re.sub(r"[×✕✖*]", "x", plain).replace("″", '"').replace("”", '"').replace("“", '"')
    plain = re.sub(r"[‐‑‒–—−]", "-", plain)
    return " ".join(re.sub(r"(?<=[0-9]),(?=[0-9])", ".", plain).split())


def number(text: str) -> Fraction:
    """A number such as 66.6, 66,6, 1/2 or 4 1/2, exactly. FitError when it is none."""
    text = text.strip()
    if NUMBER.fullmatch(text):
        return Fraction(text.replace(",", "."))
    match = MIXED.fullmatch(text)
    if match is None or int(match[3]) == 0:
        raise FitError(f"“{text[:40]}” is not a size: write a number such as 66.6.")
    return int(match[1] or 0) + Fraction(int(match[2]), int(match[3]))


def plain(value: Fraction | float, places: int = 4) -> str:
    """At most so many decimals, none that say nothing: 12, 1.25, 114.3."""
    said = f"{float(value):.{places}f}".rstrip("0").rstrip(".")
    return "0" if said in ("-0", "") else said
