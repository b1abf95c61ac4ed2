"""The kinds of work as a form offers them: the likely ones first, the others by the system that they open."""

from collections.abc import Collection, Iterable

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.engine.opened import offered_first, other_kinds
from garage.engine.systems import SYSTEM_LABELS

Ticks = list[tuple[str, str]]
REST = "Everything else"


def kinds_offered(
    systems: Iterable[str], kinds: Collection[str], *, happened: bool = False
) -> list[tuple[str, str | Ticks]]:
    """Choices of a field of ticks; what `happened` to a car rather than what hands did is among them when asked."""
    first = offered_first(systems, kinds)
    others = other_kinds(first, happened=happened)
    return [*_ticks(first), *((SYSTEM_LABELS.get(system, REST), _ticks(theirs)) for system, theirs in others.items())]


def _ticks(kinds: Iterable[str]) -> Ticks:
    return [(kind, KINDS[kind].label) for kind in kinds]
