"""How fast a stage comes closer at each temperature: pieces of exponentials, zero in the cold."""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace

from builds.cure.engine.figures import CureRule, CureTable, Figures

MINUTES_PER_HOUR = 60.0


@dataclass(frozen=True, slots=True)
class Bracket:
    """From `floor` (°C) up to the next bracket: rate · exp(slope · (T − anchor)), per minute."""

    floor: float
    anchor: float
    rate: float
    slope: float

    def at(self, celsius: float) -> float:
        return self.rate * math.exp(self.slope * (celsius - self.anchor))


@dataclass(frozen=True, slots=True)
class Law:
    """Brackets in rising order; below the first floor nothing happens."""

    brackets: tuple[Bracket, ...]
    floors: tuple[float, ...]

    def bracket(self, celsius: float) -> Bracket | None:
        """The bracket a temperature (°C) falls in, its own floor included; None below them all."""
        index = bisect_right(self.floors, celsius)
        return self.brackets[index - 1] if index else None

    def rate(self, celsius: float) -> float:
        """Fraction of the stage gained per minute at a steady temperature (°C)."""
        bracket = self.bracket(celsius)
        return bracket.at(celsius) if bracket else 0.0


def law_of(figures: Figures, minimum: float | None, *, pauses: bool = True) -> Law:
    """The rate law of a stage's figures; minimum in °C.

    Never faster than at the warmest tabulated temperature. In the cold it stops below the minimum,
    or without one below the coldest entry; down to a minimum colder than the table the line
    through its two coldest entries runs on. With pauses=False the rate never stops: it is held
    where it would have stopped, which keeps a window that closes on the cautious side.
    Source: Arrhenius-like rate, log-linear between entries, the usual reading of cure tables.
    """
    brackets = _of_table(figures) if isinstance(figures, CureTable) else _of_rule(figures)
    if minimum is not None:
        brackets = _starting_at(minimum, brackets)
    if not pauses and brackets[0].floor > -math.inf:
        first = brackets[0]
        held = Bracket(-math.inf, first.floor, first.at(first.floor), 0.0)
        brackets = [held, *brackets]
    return Law(tuple(brackets), tuple(bracket.floor for bracket in brackets))


def _of_table(table: CureTable) -> list[Bracket]:
    brackets = []
    for index, (celsius, hours) in enumerate(zip(table.celsius, table.hours, strict=True)):
        slope = 0.0
        if index + 1 < len(table.celsius):
            span = table.celsius[index + 1] - celsius
            slope = math.log(hours / table.hours[index + 1]) / span
        brackets.append(Bracket(celsius, celsius, 1 / (hours * MINUTES_PER_HOUR), slope))
    return brackets


def _of_rule(rule: CureRule) -> list[Bracket]:
    slope = math.log(rule.factor) / 10
    main = Bracket(-math.inf, rule.celsius, 1 / (rule.hours * MINUTES_PER_HOUR), slope)
    if rule.highest is None:
        return [main]
    return [main, Bracket(rule.highest, rule.highest, main.at(rule.highest), 0.0)]


def _starting_at(minimum: float, brackets: Sequence[Bracket]) -> list[Bracket]:
    """The same brackets with the first one starting at the minimum, longer or shorter."""
    ends = [*(bracket.floor for bracket in brackets[1:]), math.inf]
    kept = [bracket for bracket, end in zip(brackets, ends, strict=True) if end > minimum]
    return [replace(kept[0], floor=minimum), *kept[1:]]
