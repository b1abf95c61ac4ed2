"""Work that cures once it is on, and of which nobody has said how long. Common practice, no source."""

from collections.abc import Collection, Iterable

from builds.work.engine.half_done import PAINTED

CURES = PAINTED | {"glass_bonding"}
UNSAID = "It cures once it is on, and nobody has said how long"


def cure_unsaid(kinds: Collection[str], waits: Iterable[tuple[int, str]]) -> bool:
    """Whether it cures, and no wait behind it (minutes, what cures) stands for that."""
    return not CURES.isdisjoint(kinds) and not any(minutes or cure for minutes, cure in waits)
