"""Bolt patterns of wheels and hubs: so many studs on a circle, and how to measure the circle."""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from parts.engine.fit.numbers import INCH, FitError, number, plain, tidy

SPELLING = re.compile(
    r"([0-9]{1,2})\s?[xX]\s?([0-9]{1,3}(?:\.[0-9]{1,3})?(?:[ -][0-9]/[0-9]{1,2})?)"
    r"\s?(mm|in|inch|\")?"
)
# A circle written with less than this many of its unit is in inches.
INCHES_BELOW = 20


@dataclass(frozen=True, slots=True)
class Pattern:
    """`studs` on a circle of `pcd` mm, exact."""

    studs: int
    pcd: Fraction

    def __str__(self) -> str:
        return f"{self.studs}×{plain(self.pcd, 3)}"


def parse_pattern(text: str) -> Pattern:
    """5×112, 5x114,3 or in inches 5×4½. FitError with one sentence when it cannot be read."""
    text = tidy(text)
    match = SPELLING.fullmatch(text)
    if match is None:
        raise FitError(f"“{text}” is no bolt pattern: write one such as 5×112.")
    size = number(match[2])
    inches = match[3] in ("in", "inch", '"') or (match[3] is None and size < INCHES_BELOW)
    pattern = Pattern(int(match[1]), size * INCH if inches else size)
    if not 3 <= pattern.studs <= 12:
        raise FitError(f"{pattern.studs} studs are no wheel's: 3 to 12.")
    if not 50 <= pattern.pcd <= 400:
        raise FitError(f"A circle of {plain(pattern.pcd)} mm is no wheel's: 50 to 400 mm.")
    return pattern


def chord(pcd: float, studs: int, step: int = 1) -> float:
    """Centre to centre of two studs, in the unit of `pcd`; `step` 1 neighbours, 2 skipping one."""
    return pcd * math.sin(math.pi * step / studs)


def pcd_from_chord(measured: float, studs: int, step: int = 1) -> float:
    """The circle whose studs stand so far apart: the other way round than `chord`."""
    return measured / math.sin(math.pi * step / studs)


def back_to_centre(pcd: float, studs: int, hole: float) -> float:
    """What the rule "back of one hole to the centre of the second" reads: always too much.

    `hole` is the diameter of a stud hole, all in mm. Source: geometry.
    """
    return chord(pcd, studs, 2) + hole / 2
