"""Which changes are tried together, once none is enough by itself."""

from __future__ import annotations

from itertools import combinations

from builds.remedies.engine.changes.change import Change

SHORTLIST = 7
"""Changes that are tried by twos."""

Tried = list[tuple[int, Change]]
"""Changes that were tried by themselves, each with its gap in slots."""


def pairs(nearest: Tried, now: int) -> list[tuple[Change, ...]]:
    """Two at a time of the best of `nearest`, the least effort first; `now` is the gap without any."""
    couples = [(one, two) for one, two in combinations(_shortlist(nearest, now), 2) if one.joins((two,))]
    return sorted(couples, key=lambda couple: couple[0].effort + couple[1].effort)


def _shortlist(nearest: Tried, now: int) -> list[Change]:
    """Those that come nearest and help at all, the nearest of each other kind, then the rest."""
    short = [change for gap, change in nearest if gap < now][:SHORTLIST]
    kinds = {change.kind for change in short}
    others = []
    for _, change in nearest:
        if change.kind not in kinds:
            kinds.add(change.kind)
            short.append(change)
        elif change not in short:
            others.append(change)
    return short + others[: max(0, SHORTLIST - len(short))]
