"""Progress of a stage: the integral of its rate over a course of temperature."""

import math
from collections.abc import Iterator, Sequence

from builds.cure.engine.rates import Bracket, Law
from builds.cure.engine.temperature import Held, Ramp, Shape, Swing, Temperature

# Four-point Gauss–Legendre (Abramowitz and Stegun, table 25.4) on at most half an hour of a swing:
# measured error 2e-12 of the gain for twice per 10 °C and 8 °C either way, 1e-8 at the extreme of
# ten times and 20 °C.
PANEL_MINUTES = 30.0
_INNER, _OUTER = (math.sqrt(3 / 7 - sign * 2 / 7 * math.sqrt(6 / 5)) for sign in (1, -1))
_INNER_WEIGHT, _OUTER_WEIGHT = ((18 + sign * math.sqrt(30)) / 36 for sign in (1, -1))
_NODES = (
    (-_OUTER, _OUTER_WEIGHT),
    (-_INNER, _INNER_WEIGHT),
    (_INNER, _INNER_WEIGHT),
    (_OUTER, _OUTER_WEIGHT),
)

# A stage this near to done is done: sums over many spans carry rounding, and without this a cure
# that is done just as the shop goes cold would wait for the next warm day.
TOLERANCE = 1e-9

Span = tuple[float, float, Shape, Bracket | None]


def spans(law: Law, temperature: Temperature, since: float, until: float) -> Iterator[Span]:
    """Spans (from, until, shape, bracket) in which the temperature stays in one bracket.

    Minutes; the bracket is None where nothing cures. Stops where the temperature's course ends.
    """
    for begin, end, shape in temperature.pieces(since, until):
        if isinstance(shape, Held):
            yield begin, end, shape, law.bracket(shape.celsius)
            continue
        low, high = sorted((shape.at(begin), shape.at(end)))
        cuts = sorted(shape.when(floor) for floor in law.floors if low < floor < high)
        for cut in (*cuts, end):
            cut = min(end, max(begin, cut))
            if begin < cut:
                yield begin, cut, shape, law.bracket(shape.at((begin + cut) / 2))
                begin = cut


def gained(shape: Shape, bracket: Bracket, begin: float, end: float) -> float:
    """Fraction of a stage gained between two minutes of one span."""
    if isinstance(shape, Held):
        return bracket.at(shape.celsius) * (end - begin)
    if isinstance(shape, Ramp):
        growth = bracket.slope * (shape.at(end) - shape.at(begin))
        mean = math.expm1(growth) / growth if growth else 1.0
        return bracket.at(shape.at(begin)) * mean * (end - begin)
    if bracket.slope == 0:
        return bracket.rate * (end - begin)
    return _gained_in_swing(shape, bracket, begin, end)


def _gained_in_swing(shape: Swing, bracket: Bracket, begin: float, end: float) -> float:
    half_range = (shape.last - shape.first) / 2
    middle = shape.first + half_range
    scale = bracket.rate * math.exp(bracket.slope * (middle - bracket.anchor))
    swing = -bracket.slope * half_range
    turn = math.pi / (shape.end - shape.begin)
    panels = math.ceil((end - begin) / PANEL_MINUTES)
    half_width = (end - begin) / panels / 2
    half_turn = half_width * turn
    total = 0.0
    for panel in range(panels):
        angle = (begin - shape.begin + (2 * panel + 1) * half_width) * turn
        for node, weight in _NODES:
            total += weight * math.exp(swing * math.cos(angle + node * half_turn))
    return total * scale * half_width


def cumulative(law: Law, temperature: Temperature, minutes: Sequence[float]) -> list[float]:
    """Progress gained from minutes[0] to each of the rising minutes, as fractions of the stage.

    Past the end of the course of temperature nothing more is counted.
    """
    totals, total, index = [0.0], 0.0, 1
    for begin, end, shape, bracket in spans(law, temperature, minutes[0], minutes[-1]):
        while index < len(minutes) and minutes[index] <= end:
            if bracket:
                total += gained(shape, bracket, begin, minutes[index])
            begin = minutes[index]
            totals.append(total)
            index += 1
        if bracket and begin < end:
            total += gained(shape, bracket, begin, end)
    return totals + [total] * (len(minutes) - len(totals))


def reached(law: Law, temperature: Temperature, start: float, horizon: float, amount: float = 1.0) -> float | None:
    """The first minute by which `amount` has been gained since `start`; None if not in time."""
    missing = amount
    for begin, end, shape, bracket in spans(law, temperature, start, horizon):
        if not bracket:
            continue
        if isinstance(shape, Held):
            gain = bracket.at(shape.celsius) * (end - begin)
            if gain >= missing - TOLERANCE:
                return min(end, begin + missing / bracket.at(shape.celsius))
        else:
            gain = gained(shape, bracket, begin, end)
            if gain >= missing - TOLERANCE:
                return _solved(shape, bracket, begin, end, missing)
        missing -= gain
    return None


def _solved(shape: Shape, bracket: Bracket, begin: float, end: float, missing: float) -> float:
    """The minute in one span at which the missing part is gained: Newton, kept in its bounds."""
    low, high = begin, end
    minute = min(high, low + missing / bracket.at(shape.at((low + high) / 2)))
    for _ in range(60):
        over = gained(shape, bracket, begin, minute) - missing
        low, high = (low, minute) if over > 0 else (minute, high)
        better = minute - over / bracket.at(shape.at(minute))
        if not low <= better <= high:
            better = (low + high) / 2
        if abs(better - minute) < 1e-9:
            return better
        minute = better
    return minute
