"""Strength classes of bolts and nuts, and whether one answers another."""

from fractions import Fraction

from parts.engine.fit.numbers import FitError, tidy
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN, FitVerdict

# Source: ISO 898-1 (bolts) and ISO 898-2 (nuts), from memory.
BOLTS = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
NUTS = ("5", "6", "8", "10", "12")


def strength(text: str) -> str:
    """The class as it is stamped, from `10.9`, `10,9`, `class 10`; "" when empty, else FitError."""
    stamped = tidy(text).lower().removeprefix("class").strip().replace(",", ".")
    if stamped and stamped not in BOLTS + NUTS:
        raise FitError("A strength class is one such as 8.8 or 10.9, of a nut one such as 8 or 10.")
    return stamped


def strength_verdict(want: str, offered: str) -> FitVerdict:
    """At least the class that is asked for; "" is not written down.

    The first number is a hundredth of the tensile strength in MPa, the second tells the share of it
    at which a bolt yields: neither may be less. A nut's one number is that of the bolt it holds.
    """
    if not offered:
        return FitVerdict(NOT_KNOWN, f"Its strength class is not written down: {want} is asked for.")
    pairs = zip(_strengths(offered), _strengths(want), strict=False)
    if any(there < asked for there, asked in pairs):
        return FitVerdict(DOES_NOT, f"It is class {offered}, and {want} is asked for.", trap=True)
    return FitVerdict(FITS, f"It is class {offered}.")


def _strengths(stamped: str) -> tuple[Fraction, ...]:
    """Hundreds of MPa: tensile strength, and for a bolt the stress at which it yields."""
    tensile, _, share = stamped.partition(".")
    return (Fraction(tensile), Fraction(tensile) * Fraction(share) / 10) if share else (Fraction(tensile),)
