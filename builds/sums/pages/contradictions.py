"""Where a sum kept on a car and a reading of the same thing cannot both be right."""

from collections.abc import Iterable, Iterator
from datetime import datetime

from builds.bench.frame.read import work_out
from builds.bench.frame.say import answer_said
from builds.bench.frame.sums import MeasuredAnswer
from builds.readings.engine.figures import figure_words
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.void import LAPSED
from builds.readings.facts.readings import readings_of
from builds.sums.facts.kept import KeptStanding
from garage.engine.words import listed_in_words
from garage.models import Vehicle

STORED = 1000  # readings keep thousandths of the degree and of the per cent that answers come in


def contradictions(kept: Iterable[KeptStanding], vehicle: Vehicle, at: datetime) -> dict[int, tuple[str, ...]]:
    """By kept sum (pk), a sentence for each; no query where no sum can be contradicted."""
    known = [one for one in kept if one.asked.offered.measured and not one.void]
    if not known:
        return {}
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines
    return {one.kept.pk: tuple(_sentences(one, lines, vehicle.garage.units)) for one in known}


def _sentences(one: KeptStanding, lines: dict[str, KindLine], system: str) -> Iterator[str]:
    worked, _ = work_out(one.asked, one.kept.typed, one.kept.units)
    answers = {answer.slug: answer for answer in worked.answers} if worked else {}
    for measured in one.asked.offered.measured:
        answer, line = answers.get(measured.answer), lines.get(measured.reading)
        if answer is None or answer.value is None or line is None or line.state in LAPSED or line.only_a_note:
            continue
        if apart := list(_apart(measured, answer.value, line, system)):
            yield (
                f"{answer.label}: {answer_said(answer, system)} worked out, {listed_in_words(apart)} measured."
                " They differ, so one of the two is wrong: measure again, also what the sum rests on."
            )


def _apart(measured: MeasuredAnswer, value: float, line: KindLine, system: str) -> Iterator[str]:
    """What was measured and is too far from what was worked out, each figure with where it was read."""
    for field in line.kind.fields:
        read = line.amounts.get(field.slug)
        if field.slug in measured.fields and read is not None and abs(read / STORED - value) > measured.within:
            yield f"{figure_words(field, read, system)} ({field.label[:1].lower()}{field.label[1:]})"
