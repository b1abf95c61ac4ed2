"""Figures that follow from a reading's own: weight shares, total toe, thrust angle."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Derived:
    """A figure that was not read but follows: `amount` in `unit`, exact."""

    label: str
    amount: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Shares:
    """Corner weights as shares of the total, in per cent; `cross` is front right and rear left."""

    total: Fraction
    front: Fraction
    left: Fraction
    cross: Fraction


def weight_shares(fl: int, fr: int, rl: int, rr: int) -> Shares:
    """Total (in the unit given) and shares in per cent of four scale readings.

    front = 100 (FL+FR)/W, left = 100 (FL+RL)/W, cross = 100 (FR+RL)/W; the other diagonal is 100
    less this. ValueError when the four add up to nothing. Source: statics of four supports.
    """
    total = fl + fr + rl + rr
    if total <= 0:
        raise ValueError("Four scales that read nothing have no shares.")
    return Shares(
        Fraction(total),
        Fraction(100 * (fl + fr), total),
        Fraction(100 * (fl + rl), total),
        Fraction(100 * (fr + rl), total),
    )


def total_toe(left: int, right: int) -> int:
    """Total toe of an axle, toe-in positive, in the unit given (ISO 8855:2011 7.1.7)."""
    return left + right


def thrust(left: int, right: int) -> Fraction:
    """Thrust angle of the rear axle, positive when it points right: half of left less right.

    Unit of the toes given. Some workshop manuals use the opposite sign, so the side is named
    where it is shown.
    """
    return Fraction(left - right, 2)


def derived(kind: str, amounts: Mapping[str, int | None]) -> tuple[Derived, ...]:
    """What follows from the values (stored units) of one reading; nothing when one is missing."""
    names = {"corner_weights": "fl fr rl rr", "toe_front": "fl fr", "toe_rear": "rl rr"}
    got = [amounts.get(slug) for slug in names.get(kind, "").split()]
    known = [amount for amount in got if amount is not None]
    if not known or len(known) < len(got):
        return ()
    if kind == "corner_weights":
        return _weights(known)
    left, right = known
    rows: tuple[Derived, ...] = (Derived("Total toe", Fraction(total_toe(left, right)), "m°"),)
    if kind == "toe_rear":
        angle = thrust(left, right)
        side = "right" if angle > 0 else "left" if angle < 0 else "straight on"
        rows += (Derived(f"Thrust angle, pointing {side}", abs(angle), "m°"),)
    return rows


def _weights(known: list[int]) -> tuple[Derived, ...]:
    if not sum(known):
        return ()
    shares = weight_shares(*known)
    return (
        Derived("Total", shares.total, "g"),
        Derived("Front", shares.front * 1000, "m%"),
        Derived("Left", shares.left * 1000, "m%"),
        Derived("Cross, front right and rear left", shares.cross * 1000, "m%"),
    )
