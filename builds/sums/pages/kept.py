"""Sums kept on a car, as its page says them, and how they stand after the work since."""

from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import sum_called
from builds.readings.engine.void import FinishedWork
from builds.sums.facts import disturbed
from builds.sums.models import KeptSum
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.models import Vehicle

SHOWN = 4  # answers that are open; the others are folded


@dataclass(frozen=True)
class KeptRow:
    kept: KeptSum
    title: str
    answers: list[tuple[str, str]]
    more: list[tuple[str, str]]
    void: str
    when: str


def kept_rows(vehicle: Vehicle, at: datetime) -> list[KeptRow]:
    """The newest of each sum that was kept, newest first; four queries."""
    newest: dict[str, KeptSum] = {}
    for kept in KeptSum.objects.on(vehicle).newest().select_related("by__person"):
        if sum_called(kept.name):
            newest.setdefault(kept.name, kept)
    hit = disturbed(vehicle, list(newest.values()))
    return [_row(kept, hit.get(kept.pk), at) for kept in newest.values()]


def _row(kept: KeptSum, work: FinishedWork | None, at: datetime) -> KeptRow:
    asked = sum_called(kept.name)
    ended = moment_words(work.ended, zone(), at) if work else ""
    void = f"Void: “{work.title}” was done on {ended}. Work it out again." if work else ""
    said = [(label, figure) for label, figure in kept.said]
    title = asked.title if asked else kept.name
    return KeptRow(kept, title, said[:SHOWN], said[SHOWN:], void, moment_words(kept.at, zone(), at))
