"""The course of readings as a drawing: points on a sheet, and round figures at its side."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from itertools import pairwise

STEPS = (1, 2, 5, 10)


@dataclass(frozen=True, slots=True)
class Sheet:
    """The drawing's size in px, and the margins around the ground on which lines are drawn."""

    width: int = 640
    height: int = 260
    left: int = 64
    right: int = 132
    top: int = 16
    bottom: int = 36


def round_steps(low: Fraction, high: Fraction, count: int = 4) -> tuple[Fraction, ...]:
    """Round figures (1, 2 or 5 times a power of ten apart) that reach from low to high or beyond.

    About `count` steps. Where low is high, room is made around it.
    """
    if low == high:
        room = abs(low) / 10 or Fraction(1)
        low, high = low - room, high + room
    raw = (high - low) / count
    power = Fraction(1)
    while power * 10 <= raw:
        power *= 10
    while power > raw:
        power /= 10
    step = next(power * multiple for multiple in STEPS if power * multiple >= raw)
    first, last = low // step, -(-high // step)
    return tuple(step * number for number in range(first, last + 1))


def across(moments: Sequence[datetime], sheet: Sheet) -> list[float]:
    """Where each moment lies from the left, in px; moments in order, the first at the margin."""
    ground = sheet.width - sheet.left - sheet.right
    if not moments:
        return []
    whole = (moments[-1] - moments[0]).total_seconds()
    if whole <= 0:
        return [sheet.left + ground / 2] * len(moments)
    return [round(sheet.left + ground * (moment - moments[0]).total_seconds() / whole, 1) for moment in moments]


def down(values: Iterable[Fraction], low: Fraction, high: Fraction, sheet: Sheet) -> list[float]:
    """Where each value lies from the top, in px; `high` at the top. ValueError when low is high."""
    if low == high:
        raise ValueError("A scale needs two ends.")
    ground = sheet.height - sheet.top - sheet.bottom
    return [round(sheet.top + float(ground * (high - value) / (high - low)), 1) for value in values]


def apart(heights: Sequence[float], least: float) -> list[float]:
    """Heights of labels moved down so that none lies nearer than `least` px to the one above it."""
    order = sorted(range(len(heights)), key=lambda number: heights[number])
    moved = list(heights)
    for above, below in pairwise(order):
        moved[below] = max(moved[below], moved[above] + least)
    return moved
