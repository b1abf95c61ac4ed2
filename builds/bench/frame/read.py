"""What somebody typed into a sum, read into figures, or one sentence at each field that cannot be read."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builds.bench.frame.say import number_said, sentence_said, worked_said
from builds.bench.frame.sums import Ask, Sum, SumError, Worked
from builds.bench.frame.units import unit_in
from garage.engine.said import number, said
from garage.engine.units import QuantityError

LONGEST_TEXT = 2_000
TOO_FAR_APART = "These figures are too far apart to be worked with: look through them again."


@dataclass
class Readable:
    """Figures and texts by slug, and a sentence by the slug of what cannot be read."""

    figures: dict[str, float] = field(default_factory=dict)
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
            elif ask.is_text:
                out.texts[ask.slug] = _text(ask, text)
            else:
                out.figures[ask.slug] = _figure(ask, text, of)
        except (SumError, QuantityError) as refusal:
            out.errors[ask.slug] = str(refusal)
    return out


def work_out(asked: Sum, typed: Mapping[str, str], system: str = "metric") -> tuple[Worked | None, dict[str, str]]:
    """The answer, or sentences by slug ("" for one that belongs to no single figure) that say why there is none."""
    readable = read(asked, typed, system)
    if readable.errors:
        return None, readable.errors
    try:
        worked = asked.work(readable.figures, readable.texts)
    except SumError as refusal:
        return None, {refusal.asked: sentence_said(str(refusal), system)}
    except (ValueError, ArithmeticError):
        return None, {"": TOO_FAR_APART}
    if not all(math.isfinite(answer.value) for answer in worked.answers if answer.value is not None):
        return None, {"": TOO_FAR_APART}
    return worked_said(worked, system), {}


def missing(ask: Ask) -> str:
    """The sentence at a field that was left empty."""
    return "Say which." if ask.is_text else "A figure is wanted here."


def _text(ask: Ask, text: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise SumError(f"That is too long: at most {LONGEST_TEXT:,} characters.")
    if "\0" in text:
        raise SumError("Leave out what cannot be seen.")
    if ask.choices and text not in {slug for slug, _ in ask.choices}:
        raise SumError(f"Choose one of: {', '.join(label for _, label in ask.choices)}.")
    return text


def _figure(ask: Ask, text: str, system: str) -> float:
    exact: Fraction = said(text, unit_in(ask.unit, system), ask.unit) if ask.unit else number(text)
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
