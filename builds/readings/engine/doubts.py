"""Figures that are likelier a slip than a car: asked about, and kept once somebody said yes."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from builds.readings.engine.fields import AXLES, FIGURE, Field
from builds.readings.engine.figures import OWN, figure, figure_words, with_unit
from garage.engine.units import UNITS, convert, number_words

# Units in which a figure is read besides the one that the garage types.
READ_IN = {
    "length": ("mm", "in", "thou"),
    "mass": ("kg", "lb"),
    "pressure": ("bar", "psi", "kPa"),
    "torque": ("N·m", "lbf·ft"),
}
NEAR, FAR = Fraction(1, 20), Fraction(1, 5)
"""How near to the last figure, as a share of it, is the same; how far is another. Our own choice."""
LOST_SIGN = 250  # m°: so far from nothing the two of an axle lean the same way; common practice, no source
LIKELY_CAR = (350_000, 2_200_000)  # g on four wheels together; common practice, no source


def doubts(
    fields: Iterable[Field], amounts: Mapping[str, int | None], system: str, last: Mapping[str, int | None]
) -> dict[str, str]:
    """Of the figures (stored units) that are doubtful, by their field (slug), a question.

    One is beyond what is likely, or fits in another unit what the same figure was `last` time; four
    corner weights are also judged together, and the signs of the two wheels of an axle.
    """
    asked = {}
    known = [(field, amount) for field in fields if (amount := amounts.get(field.slug)) is not None]
    for field, amount in known:
        if field.type == FIGURE and field.quantity != OWN:
            asked[field.slug] = _doubt(field, amount, system, last.get(field.slug))
    weights = [(field, amount) for field, amount in known if field.quantity == "mass"]
    if weights and (question := _whole_car(weights, system)):
        corners = [field.slug for field, _ in weights]
        in_another_unit = all(asked[slug] for slug in corners) and next(_meant_of_all(weights, system), "")
        if in_another_unit or not any(asked[slug] for slug in corners):
            asked |= {**dict.fromkeys(corners, ""), corners[0]: question}
    for slug, question in _signs({field.slug: (field, amount) for field, amount in known}, system):
        asked[slug] = asked[slug] or question
    return {slug: question for slug, question in asked.items() if question}


def _signs(known: Mapping[str, tuple[Field, int]], system: str) -> Iterator[tuple[str, str]]:
    """Of an axle whose wheels lean against each other: at its second wheel, the question."""
    for left, right in AXLES:
        if not (left in known and right in known and known[left][0].mirrored):
            continue
        amounts = [known[slug][1] for slug in (left, right)]
        if min(amounts) <= -LOST_SIGN and max(amounts) >= LOST_SIGN:
            said = [
                f"{field.label.lower()} {figure_words(field, amount, system)}"
                for field, amount in (known[left], known[right])
            ]
            yield right, f"{' and '.join(said).capitalize()}: is that right? One of them may have lost its sign."


def _doubt(field: Field, amount: int, system: str, last: int | None) -> str:
    if last and (meant := _as_last(field, amount, system, last)):
        return (
            f"{figure_words(field, amount, system)}: is that right? It was {figure_words(field, last, system)}. {meant}"
        )
    if field.likely is None or field.likely[0] <= amount <= field.likely[1]:
        return ""
    low, high = (figure_words(field, end, system) for end in field.likely)
    said = f"{figure_words(field, amount, system)}: is that right? Mostly it lies between {low} and {high}."
    meant = next(_meant(field, amount, system, *field.likely), "") or _slip_of_ten(field, amount, system, *field.likely)
    return f"{said} {meant}".strip()


def _slip_of_ten(field: Field, amount: int, system: str, low: int, high: int) -> str:
    """What it would be with its point one place further on, or back, where that lies between the two (stored units)."""
    slips = (round(Fraction(amount) * share) for share in (Fraction(1, 10), Fraction(10)))
    meant = next((other for other in slips if low <= other <= high), None)
    return "" if not amount or meant is None else f"Was {figure_words(field, meant, system)} meant?"


def _meant(field: Field, amount: int, system: str, low: int, high: int) -> Iterator[str]:
    """What the number would be in other units, where that lies between the two (stored units)."""
    number = figure(field, amount, system)
    for unit in READ_IN.get(field.quantity, ()):
        other = convert(number, UNITS[unit], UNITS[field.stored])
        coarse = unit == "thou" and "thou" not in field.shown  # nobody measures a ride height in thousandths
        if unit != field.unit(system) and not coarse and low <= other <= high:
            yield (
                f"{with_unit(number_words(number, 3), unit)} would be {figure_words(field, round(other), system)}:"
                f" then write {unit} beside it."
            )


def _as_last(field: Field, amount: int, system: str, last: int) -> str:
    if abs(amount - last) <= FAR * abs(last):
        return ""
    low, high = sorted(round(last * share) for share in (1 - NEAR, 1 + NEAR))
    return next(_meant(field, amount, system, low, high), "")


def _whole_car(weights: list[tuple[Field, int]], system: str) -> str:
    field, total = weights[0][0], sum(amount for _, amount in weights)
    if LIKELY_CAR[0] <= total <= LIKELY_CAR[1]:
        return ""
    meant = next(_meant_of_all(weights, system), "")
    return f"{figure_words(field, total, system)} on all four: is that right? {meant}".strip()


def _meant_of_all(weights: list[tuple[Field, int]], system: str) -> Iterator[str]:
    return _meant(weights[0][0], sum(amount for _, amount in weights), system, *LIKELY_CAR)
