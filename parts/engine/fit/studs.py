"""Studs and nuts: how much thread must be engaged, in turns and in free length."""

from dataclasses import dataclass

# In diameters. Source: 1.0 d steel in steel, common practice; 1.5 d into soft metal, attributed to
# Carroll Smith.
STEEL, SOFT = 1.0, 1.5


@dataclass(frozen=True, slots=True)
class StudCheck:
    """mm: what must be engaged, what is, and what is lacking; `turns` those that are there."""

    needed: float
    engaged: float
    turns: float
    lacking: float

    @property
    def enough(self) -> bool:
        return self.lacking == 0


def engagement_needed(diameter: float, soft: bool = False) -> float:
    """mm of full thread for a diameter in mm; `soft` for aluminium nuts or tapped alloy."""
    return diameter * (SOFT if soft else STEEL)


def full_turns(engagement: float, pitch: float) -> float:
    """Turns over an engagement, both mm."""
    return engagement / pitch


def free_stud(spacer: float, pad: float, engagement: float) -> float:
    """mm of stud that must stand free of the hub face: spacer, wheel at its seat, engagement."""
    return spacer + pad + engagement


def stud_check(
    free: float, diameter: float, pitch: float, *, pad: float, spacer: float = 0, soft: bool = False
) -> StudCheck:
    """A stud that stands `free` mm beyond the hub face, with this wheel pad and spacer, all mm.

    Source: the rule of thumb above. Only full-depth threads count, and closed nuts bottom out.
    """
    needed = engagement_needed(diameter, soft)
    engaged = max(0.0, free - spacer - pad)
    return StudCheck(needed, engaged, full_turns(engaged, pitch), max(0.0, needed - engaged))
