"""A stage's figures as a data sheet gives them: a table of times, or one time and a factor."""

from dataclasses import dataclass
from itertools import pairwise

COLDEST, WARMEST = -40.0, 200.0
LONGEST_HOURS = 20_000.0


class ProductError(ValueError):
    """A product that cannot be used as asked; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class CureTable:
    """Hours at each of several temperatures (°C, ascending), as a data sheet tabulates them.

    Between two entries the logarithm of the hours is a straight line in the temperature.
    ProductError for fewer than two entries, or for hours that grow as it gets warmer.
    """

    celsius: tuple[float, ...]
    hours: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.celsius) != len(self.hours):
            raise ProductError(
                f"The table has {len(self.celsius)} temperatures and {len(self.hours)} times; "
                "it needs one time for each temperature."
            )
        if len(self.celsius) < 2:
            raise ProductError("A table needs at least two temperatures; with one, give a factor instead.")
        for celsius in self.celsius:
            check_celsius(celsius)
        for hours in self.hours:
            check_hours(hours)
        if any(cold >= warm for cold, warm in pairwise(self.celsius)):
            raise ProductError("The temperatures of a table must rise from entry to entry.")
        if any(cold < warm for cold, warm in pairwise(self.hours)):
            raise ProductError("The times of a table must not grow as it gets warmer.")


@dataclass(frozen=True, slots=True)
class CureRule:
    """Hours at one temperature (°C), and how many times faster 10 °C more makes it.

    hours(T) = hours · factor ** ((celsius − T) / 10); above `highest` (°C) as it is there.
    A factor of 1 is a plain clock. Twice per 10 °C is the usual rule of thumb; it is too hopeful
    in the cold, so a table is better wherever the data sheet has one.
    ProductError for a factor outside 1 to 10 or figures out of range.
    """

    celsius: float
    hours: float
    factor: float = 2.0
    highest: float | None = None

    def __post_init__(self) -> None:
        check_celsius(self.celsius)
        check_hours(self.hours)
        if not 1 <= self.factor <= 10:
            raise ProductError(
                f"A factor of {self.factor:g} per 10 °C is not between 1 and 10; warmth never slows a cure."
            )
        if self.highest is not None:
            check_celsius(self.highest)
            if self.highest < self.celsius:
                raise ProductError("The highest temperature lies below the temperature the time is given for.")


Figures = CureTable | CureRule


def check_celsius(celsius: float) -> None:
    """Refuse (ProductError) a temperature outside −40 to 200 °C, or one that is no number."""
    if not COLDEST <= celsius <= WARMEST:
        raise ProductError(f"{celsius:g} °C is not between {COLDEST:g} and {WARMEST:g} °C; check the unit.")


def check_hours(hours: float) -> None:
    """Refuse (ProductError) a time that is not above 0 and at most 20,000 h, or is no number."""
    if not 0 < hours <= LONGEST_HOURS:
        raise ProductError(f"{hours:g} hours is not a time between 0 and {LONGEST_HOURS:g} hours.")
