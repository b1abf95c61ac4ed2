"""What a job needs, told: there, expected, overdue, or still to find."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from builds.needs.facts.fits import answer_of
from builds.needs.facts.wants import WantStanding
from builds.needs.pages.by_day import ByDay, by_day
from builds.needs.pages.words import behind_words, expected_words, fit_words, standing_words
from builds.work.models.need import Need
from garage.engine.money import money_words
from parts.engine.fit import FitVerdict
from parts.engine.words import amount_words
from parts.models import Part


@dataclass(frozen=True)
class NeedLine:
    """`stripe` and `word` are its state; `late` when it should have come by now.

    `behind` says who is served first; `part` (pk) and `places` (pk) where it is to be pulled from.
    `fit` is what it must fit, `answer` how the part named does. `by` says until when it may come,
    `alike` what the shelf has that is called so, where nobody has said which part it is.
    """

    pk: int
    what: str
    supplier: str
    stripe: str
    word: str
    got: bool
    late: bool
    cost: str = ""
    behind: str = ""
    part: int | None = None
    places: tuple[tuple[int, int], ...] = ()
    fit: str = ""
    answer: FitVerdict | None = None
    by: ByDay | None = None
    alike: str = ""


def need_lines(
    needs: Iterable[Need],
    today: date,
    standing: Mapping[int, WantStanding],
    currency: str,
    last_days: Mapping[int, date],
) -> list[NeedLine]:
    """What is missing first, the soonest expected before the rest; `last_days` by job (pk)."""
    missing_first = sorted(needs, key=lambda need: (need.got_at is not None, need.expected_on or date.max))
    return [
        need_line(need, today, standing.get(need.pk), currency, last_days.get(need.job_id)) for need in missing_first
    ]


def need_line(need: Need, today: date, stands: WantStanding | None, currency: str, last: date | None) -> NeedLine:
    """`stands` is of an open job's need; that of a job that is over says only what was expected.

    `last` is the last day on which parts of its job may come, None where nobody waits for them.
    """
    day, ready = need.expected_on, stands is not None and stands.state == "shelf"
    late = need.got_at is None and not ready and day is not None and day < today
    if need.got_at is not None:
        word = "here"
    elif stands is not None:
        word = standing_words(need, stands, today)
    else:
        word = expected_words(need, today) or "to find"
    open_now = stands if need.got_at is None else None
    return NeedLine(
        need.pk,
        what_words(need),
        need.supplier,
        "full" if need.got_at else "half" if ready else "none",
        word,
        need.got_at is not None,
        late,
        "" if need.cost_minor is None else money_words(need.cost_minor, currency),
        behind_words(need, open_now) if open_now else "",
        need.part_id,
        tuple((pick.place, pick.quantity) for pick in open_now.picks) if open_now else (),
        fit_words(need),
        answer_of(need, need.part) if need.part else None,
        by_day(need, last, today) if open_now and not ready else None,
    )


def what_words(need: Need) -> str:
    """`front hub`, `2 × front hub`, `700 ml of Brake fluid`."""
    if need.part and need.part.unit != Part.Unit.PIECE:
        return f"{amount_words(need.part.unit, need.quantity)} of {need.what}"
    return f"{need.quantity} × {need.what}" if need.quantity > 1 else need.what
