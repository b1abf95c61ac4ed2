"""Work that cures once it is on, and of which nobody has said how long. Common practice, no source."""

from collections.abc import Collection, Iterable
from datetime import timedelta

from builds.work.engine.half_done import PAINTED

CURES = PAINTED | {"glass_bonding", "glued"}
UNSAID = "It cures once it is on, and nobody has said how long"


def cure_unsaid(kinds: Collection[str], waits: Iterable[tuple[int, str]]) -> bool:
    """Whether it cures, and no wait behind it (minutes, what cures) stands for that."""
    return not CURES.isdisjoint(kinds) and not any(minutes or cure for minutes, cure in waits)


# Loaded with the car itself: bonded glass, what is glued on, and paint that a joint clamps (trade rule 30).
_ON_JOINTS = frozenset({"glass_bonding", "glued", "paint_under_joint"})
# What such work takes, as the shipped recipes have it: never a figure, only until when to ask for the maker's time.
_MOSTLY = {"glass_bonding": timedelta(days=3), "glued": timedelta(days=1), **dict.fromkeys(PAINTED, timedelta(days=7))}


def on_joints(kinds: Collection[str]) -> bool:
    """Whether the car is not moved before it has cured, whatever it is on."""
    return not _ON_JOINTS.isdisjoint(kinds)


def mostly_cures(kinds: Collection[str]) -> timedelta | None:
    """How long such work mostly cures; None for work that does not."""
    return max((_MOSTLY[kind] for kind in kinds if kind in _MOSTLY), default=None)
