"""What a job needs, told: there, expected, overdue, or still to find."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builds.models import Need
from garage.engine.moments import day_words


@dataclass(frozen=True)
class NeedLine:
    """`stripe` and `word` are its state; `late` when it should have come by now."""

    pk: int
    what: str
    supplier: str
    stripe: str
    word: str
    got: bool
    late: bool


def need_lines(needs: Iterable[Need], today: date) -> list[NeedLine]:
    """What is missing first, the soonest expected before the rest."""
    rows = sorted(needs, key=lambda row: (row.got_at is not None, row.expected_on or date.max))
    return [_line(row, today) for row in rows]


def _line(need: Need, today: date) -> NeedLine:
    day = need.expected_on
    late = need.got_at is None and day is not None and day < today
    if need.got_at is not None:
        word = "here"
    elif day is None:
        word = "to find"
    else:
        word = f"{'was expected' if late else 'expected'} {day_words(day)}"
    return NeedLine(
        need.pk,
        f"{need.quantity} × {need.what}" if need.quantity > 1 else need.what,
        need.supplier,
        "full" if need.got_at else "none",
        word,
        need.got_at is not None,
        late,
    )
