"""What somebody typed into a sum, read into figures, or one sentence at each field that cannot be read."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from builds.bench.frame.say import number_said, sentence_said, worked_said
from builds.bench.frame.sums import Ask, Sum, SumError, Worked
from builds.bench.frame.units import unit_in
from garage.engine.said import give_of, number, said, says_unit
from garage.engine.units import UNITS, QuantityError, convert, number_words

LONGEST_TEXT = 2_000
_FIRST = re.compile(r"\d+(?:[.,]\d+)?")
TOO_FAR_APART = "These figures are too far apart to be worked with: look through them again."


@dataclass
class Readable:
    """Figures and texts by slug, what figures may be off each way, a sentence by the slug of what cannot be read."""

    figures: dict[str, float] = field(default_factory=dict)
    gives: dict[str, float] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    errors: dict[str, str] = field(default_factory=dict)


def read(asked: Sum, typed: Mapping[str, str], system: str = "metric") -> Readable:
    """What was typed, by slug; figures in the unit of their ask. What nobody asked is left alone."""
    out = Readable()
    for ask in asked.asks:
        text, of = (typed.get(ask.slug) or "").strip(), system
        if not text:
            text, of = ask.default, "metric"
        try:
            if not text:
                if ask.needed:
                    raise SumError(missing(ask))
            elif len(text) > LONGEST_TEXT:
                raise SumError(f"That is too long: at most {LONGEST_TEXT:,} characters.")
            elif ask.is_text:
                out.texts[ask.slug] = _text(ask, text)
            else:
                figure, give = give_of(text)
                out.figures[ask.slug] = _figure(ask, figure, of)
                if give:
                    out.gives[ask.slug] = _give(ask, give, of)
        except (SumError, QuantityError) as refusal:
            out.errors[ask.slug] = str(refusal)
    return out


def texts_of(asked: Sum, typed: Mapping[str, str]) -> dict[str, str]:
    """What was chosen, by slug, of what was typed or is taken when nothing is."""
    chosen = {ask.slug: typed.get(ask.slug) or ask.default for ask in asked.asks if ask.choices}
    known = {ask.slug: {slug for slug, _ in ask.choices} for ask in asked.asks}
    return {slug: text for slug, text in chosen.items() if text in known[slug]}


def work_out(asked: Sum, typed: Mapping[str, str], system: str = "metric") -> tuple[Worked | None, dict[str, str]]:
    """The answer, or sentences by slug ("" for one that belongs to no single figure) that say why there is none."""
    readable = read(asked, typed, system)
    if readable.errors:
        return None, readable.errors
    try:
        worked = _with_gives(asked, readable)
    except SumError as refusal:
        return None, {refusal.asked: sentence_said(str(refusal), system)}
    except (ValueError, ArithmeticError):
        return None, {"": TOO_FAR_APART}
    figures = (figure for answer in worked.answers for figure in (answer.value, answer.give) if figure is not None)
    if not all(map(math.isfinite, figures)):
        return None, {"": TOO_FAR_APART}
    return worked_said(worked, system), {}


def _with_gives(asked: Sum, readable: Readable) -> Worked:
    """Worked out, each answer with what its inputs may be off: both edges of each tried, root of the sum of squares.

    Source: the law of propagation, JCGM 100:2008 5.1.2, with differences for derivatives. An answer that knows
    better how far off it is keeps that.
    """
    worked = asked.work(readable.figures, readable.texts)
    squares: dict[str, float] = {}
    for slug, give in readable.gives.items():
        low, high = (_edge(asked, readable, slug, by) for by in (-give, give))
        for answer in worked.answers:
            if answer.slug in low and answer.slug in high:
                off = (high[answer.slug] - low[answer.slug]) / 2
                squares[answer.slug] = squares.get(answer.slug, 0) + off**2
    answers = tuple(
        replace(answer, give=max(answer.give or 0, math.sqrt(squares[answer.slug])))
        if answer.value is not None and answer.slug in squares
        else answer
        for answer in worked.answers
    )
    return replace(worked, answers=answers)


def _edge(asked: Sum, readable: Readable, slug: str, by: float) -> dict[str, float]:
    """Answers at one edge of what a figure may be. SumError at that figure where there is no answer so far out."""
    figures = readable.figures | {slug: readable.figures[slug] + by}
    try:
        worked = asked.work(figures, readable.texts)
    except (ValueError, ArithmeticError):
        raise SumError("With a figure that far off there is no answer: measure it more closely.", slug) from None
    return {answer.slug: answer.value for answer in worked.answers if answer.value is not None}


def missing(ask: Ask) -> str:
    """The sentence at a field that was left empty."""
    return "Say which." if ask.is_text else "A figure is wanted here."


def typed_in(text: str, unit: str, system: str, stored: str) -> Fraction:
    """A length, mass and the like as it was typed in a garage of that system, in `stored`; what it may be off aside."""
    return said(give_of(text)[0], unit_in(unit, system), stored)


def typed_as(ask: Ask, text: str, units: str, system: str) -> str:
    """What was typed in a garage of `units`, as it reads the same in one of `system`: a bare figure gets its unit."""
    unit = unit_in(ask.unit, units)
    bare = text and unit and not ask.is_text and units != system and not says_unit(text)
    return f"{text} {unit}" if bare else text


def micrometres_of(text: str, system: str) -> int:
    """A length as it was typed in a garage of that system, as the rows of a car keep it."""
    return round(typed_in(text, "mm", system, "µm"))


def length_typed(micrometres: int) -> str:
    """A length as one would type it in any garage, such as `2575 mm`."""
    return f"{number_words(convert(micrometres, UNITS['µm'], UNITS['mm']), 3)} mm"


def _text(ask: Ask, text: str) -> str:
    if "\0" in text:
        raise SumError("Leave out what cannot be seen.")
    if ask.choices and text not in {slug for slug, _ in ask.choices}:
        raise SumError(f"Choose one of: {', '.join(label for _, label in ask.choices)}.")
    return text


def _give(ask: Ask, text: str, system: str) -> float:
    """What a figure may be off each way, in the unit of its ask; zeros play no part."""
    unit = unit_in(ask.unit, system)
    off = said(text, unit, ask.unit) if ask.unit else number(text)
    if ask.unit == "°C":
        off -= said(_FIRST.sub("0", text, count=1), unit, ask.unit)
    if ask.whole or off < 0:
        raise SumError("Write a figure, and after ± how far off it may be, 0 or more; what is counted is exact.")
    return float(off)


def _figure(ask: Ask, text: str, system: str) -> float:
    exact = typed_in(text, ask.unit, system, ask.unit) if ask.unit else number(text)
    value = float(exact)
    if ask.whole and value != int(value):
        raise SumError("Write a whole number.")
    if ask.above is not None and value <= ask.above:
        raise SumError(f"Write more than {number_said(ask.above, ask.unit, system)}.")
    if ask.least is not None and value < ask.least:
        raise SumError(f"Write at least {number_said(ask.least, ask.unit, system)}.")
    if ask.most is not None and value > ask.most:
        raise SumError(f"Write at most {number_said(ask.most, ask.unit, system)}.")
    return value
