"""Which sums are offered beside a piece of work."""

from collections.abc import Iterable

from builds.bench.catalogue import SUMS
from builds.bench.frame.sums import Sum


def sums_for(readings: Iterable[str] = (), systems: Iterable[str] = ()) -> list[Sum]:
    """Sums that help with any of these readings or systems (slugs), those of the readings first, then as listed."""
    by_reading, by_system = set(readings), set(systems)
    first = [one for one in SUMS.values() if by_reading & set(one.offered.readings)]
    return first + [one for one in SUMS.values() if one not in first and by_system & set(one.offered.systems)]
