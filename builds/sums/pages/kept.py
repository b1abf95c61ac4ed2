"""Sums kept on a car, as its page and its jobs say them, and how they stand after the work since."""

from dataclasses import dataclass, replace
from datetime import datetime

from builds.readings.engine.void import FinishedWork
from builds.readings.engine.why_not import end_words
from builds.sums.facts.kept import KeptStanding, newest_kept
from builds.sums.models import KeptSum
from builds.sums.pages.contradictions import contradictions
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.models import Vehicle


@dataclass(frozen=True)
class KeptRow:
    """`void` why it holds no more, `done` which job did what it plans, `differs` which readings contradict it."""

    kept: KeptSum
    title: str
    answers: list[tuple[str, str]]
    checks: list[tuple[str, str]]
    void: str
    done: str
    when: str
    differs: tuple[str, ...] = ()


def kept_rows(vehicle: Vehicle, at: datetime) -> list[KeptRow]:
    """The newest of each sum that was kept, newest first."""
    kept = newest_kept([vehicle], at)[vehicle.pk]
    differs = contradictions(kept, vehicle, at)
    return [replace(kept_row(one, at), differs=differs.get(one.kept.pk, ())) for one in kept]


def kept_row(one: KeptStanding, at: datetime) -> KeptRow:
    return KeptRow(
        one.kept,
        one.asked.title,
        [(label, figure) for label, figure, *_ in one.kept.said],
        checks_of(one),
        void_words(one.void, at),
        f"“{one.done.title}” did it, {moment_words(one.done.ended, zone(), at)}." if one.done else "",
        moment_words(one.kept.at, zone(), at),
    )


def checks_of(one: KeptStanding) -> list[tuple[str, str]]:
    """Label and figure of those answers that the work is held against."""
    said = {slug: (label, figure) for label, figure, slug in (told for told in one.kept.said if len(told) == 3)}
    return [said[slug] for slug in one.asked.offered.checks if slug in said]


def void_words(work: FinishedWork | None, at: datetime) -> str:
    """Why a sum holds no more, nothing while it does. `work` is what took what it rests on."""
    return f"Void: {end_words(work, zone(), at)}. Work it out again." if work else ""
