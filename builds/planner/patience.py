"""When a search has done enough: going on would buy nothing that anybody feels."""

from __future__ import annotations

from builds.planner.plan import Score

LEAST = 4.0
"""Seconds before which no search is given up."""

LITTLE = 0.001
"""Of the ends of the cars and the sum of ends: what the second half of a search must have bought."""

WEIGHTY = 4
"""Parts of the score of which any change counts: cars that miss, and late jobs by rank."""


class Patience:
    """Told from time to time how good the best plan is."""

    def __init__(self) -> None:
        self.told: list[tuple[float, Score]] = []

    def is_over(self, seconds: float, best: Score) -> bool:
        """Whether the second half of the `seconds` so far bought less than a tenth of a per cent."""
        self.told.append((seconds, best))
        if seconds < LEAST:
            return False
        _, half_way = max((told for told in self.told if told[0] <= seconds / 2), default=self.told[0])
        return not _felt(half_way, best)


def _felt(was: Score, now: Score) -> bool:
    if was[:WEIGHTY] != now[:WEIGHTY]:
        return True
    pairs = zip(was[WEIGHTY:], now[WEIGHTY:], strict=True)
    return any(before - after > LITTLE * before for before, after in pairs)
