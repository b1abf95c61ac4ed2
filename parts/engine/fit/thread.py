"""A thread: its system, diameter, pitch and hand, and the profile that follows from them."""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from parts.engine.fit.numbers import INCH, plain

METRIC, UNIFIED = "metric", "unified"
EXTERNAL, INTERNAL = "external", "internal"
OTHER_SIDE = {EXTERNAL: INTERNAL, INTERNAL: EXTERNAL, "": ""}
# Multiples of the pitch of the 60° basic profile. Source: ISO 68-1 and ISO 724 (d1), ISO 898-1
# (d3 and the stress area of metric threads), ASME B1.1 (that of unified ones); from memory.
HEIGHT = math.sqrt(3) / 2
OFF_D1, OFF_D3 = 1.082532, 1.226869
OFF_STRESS = {METRIC: 0.9381942, UNIFIED: 0.9743}


@dataclass(frozen=True, slots=True)
class Thread:
    """`diameter` and `pitch` in mm, exact; `side` external (bolt), internal (nut) or "" unsaid.

    `tolerance` as written (6g, 6H/6g, 2A), `length` S, N or L, `series` UNC, UNF or the like: they
    are kept, but do not decide what threads together.
    """

    system: str
    diameter: Fraction
    pitch: Fraction
    left: bool = False
    side: str = ""
    tolerance: str = ""
    length: str = ""
    series: str = ""

    @property
    def form(self) -> tuple[str, Fraction, Fraction, bool]:
        """All that must agree for two threads to go together."""
        return self.system, self.diameter, self.pitch, self.left

    @property
    def per_inch(self) -> Fraction:
        """Threads per inch."""
        return INCH / self.pitch

    @property
    def height(self) -> float:
        """Of the sharp triangle, H, in mm."""
        return HEIGHT * float(self.pitch)

    @property
    def minor(self) -> float:
        """Basic minor diameter, d1 of the bolt and D1 of the nut, in mm."""
        return self._less(OFF_D1)

    @property
    def root(self) -> float:
        """Minor diameter of the bolt at its rounded root, d3, in mm."""
        return self._less(OFF_D3)

    @property
    def stress_area(self) -> float:
        """Nominal stress area in mm²: pi/4 (d - 0.9382 P)², for unified pi/4 (d - 0.9743/n)²."""
        return math.pi / 4 * self._less(OFF_STRESS[self.system]) ** 2

    def _less(self, pitches: float) -> float:
        return float(self.diameter) - pitches * float(self.pitch)

    def on(self, side: str) -> "Thread":
        return replace(self, side=side)

    @property
    def size(self) -> str:
        """Without hand and tolerance: M12×1.25, 1/2-20, #10-32."""
        if self.system == METRIC:
            return f"M{plain(self.diameter, 3)}×{plain(self.pitch, 3)}"
        return f"{inches(self.diameter / INCH)}-{plain(self.per_inch)}"

    def __str__(self) -> str:
        """The one canonical spelling: the pitch always said, M12×1.25-LH-6g, 1/2-20 UNF-2A-LH."""
        hand = "LH" if self.left else ""
        if self.system == METRIC:
            return "-".join(filter(None, (self.size, hand, self.tolerance, self.length)))
        head = f"{self.size} {self.series}" if self.series else self.size
        return "-".join(filter(None, (head, self.tolerance, hand)))


def inches(size: Fraction) -> str:
    """A nominal size in inches: #10, 7/16, 1", 1 1/8; a whole one keeps its mark."""
    thousandths = size * 1000 - 60
    if size < Fraction(1, 4) and thousandths % 13 == 0:
        return f"#{thousandths // 13}"
    whole, rest = divmod(size, 1)
    if not rest:
        return f'{whole}"'
    return f"{whole} {rest}" if whole else str(rest)
