"""A sum against the same one as it was kept on the car: what comes out otherwise now."""

from dataclasses import dataclass
from datetime import datetime

from builds.bench.frame.say import answer_said
from builds.bench.frame.sums import Sum, Worked
from builds.sums.models import KeptSum
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.models import Vehicle


@dataclass(frozen=True)
class KeptBefore:
    """`lines` are label, then and now of each answer that differs."""

    kept: str
    lines: tuple[tuple[str, str, str], ...]


def before(vehicle: Vehicle, asked: Sum, worked: Worked, at: datetime) -> KeptBefore | None:
    """Against the newest that was kept; None where none was, or nothing differs. One query."""
    kept = KeptSum.objects.on(vehicle).filter(name=asked.slug).newest().select_related("by__person").first()
    if kept is None or kept.units != vehicle.garage.units:
        return None
    then = {slug: figure for _, figure, slug in (told for told in kept.said if len(told) == 3)}
    now = [(answer, answer_said(answer, kept.units)) for answer in worked.answers]
    lines = tuple(
        (answer.label, then[answer.slug], figure)
        for answer, figure in now
        if answer.slug in then and then[answer.slug] != figure
    )
    return KeptBefore(f"{kept.by.name}, {moment_words(kept.at, zone(), at)}", lines) if lines else None
