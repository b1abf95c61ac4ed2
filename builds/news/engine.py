"""What is news to somebody: how things stand now, held against how they stood when he was told last."""

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, field
from datetime import date
from typing import Any

from garage.engine.moments import day_words

FIT = "fit"


@dataclass(frozen=True)
class Standing:
    """As one person may know it; keys are texts, since it is kept as JSON.

    `evenings`: by day (ISO) from when (`18:00`) and what the plan has for him; `points`: what waits for his look, by
    its address; `parts`: what is still to come, by key; `cars`: by key the state of the verdict and its sentence.
    """

    evenings: dict[str, list[str]] = field(default_factory=dict)
    points: dict[str, str] = field(default_factory=dict)
    parts: dict[str, str] = field(default_factory=dict)
    cars: dict[str, list[str]] = field(default_factory=dict)

    @classmethod
    def read(cls, kept: Mapping[str, Any]) -> "Standing":
        """From what `kept` gave; what another version kept and this one does not know is left out."""
        return cls(**{name: kept.get(name) or {} for name in cls.__dataclass_fields__})

    def kept(self) -> dict[str, Any]:
        return asdict(self)


@dataclass(frozen=True)
class NewsKinds:
    evenings: bool
    points: bool
    parts: bool
    cars: bool


def news(before: Standing, now: Standing, came: Mapping[str, str], wants: NewsKinds, today: date) -> list[str]:
    """Sentences; `came` are parts (by key) that came, of those that were still to come. None of them: no news."""
    lines: list[str] = []
    if wants.evenings:
        lines += _evenings(before.evenings, now.evenings, today)
    if wants.points:
        lines += [f"Waits for your look: {words}." for key, words in now.points.items() if key not in before.points]
    if wants.parts:
        lines += [f"Here: {words}." for key, words in came.items() if key in before.parts]
    if wants.cars:
        lines += _cars(before.cars, now.cars)
    return lines


def _evenings(before: Mapping[str, list[str]], now: Mapping[str, list[str]], today: date) -> Iterator[str]:
    """Of days still ahead: which came, which went, and which begin at another hour; a job more in one is no news."""
    for day in sorted({*before, *now}):
        ahead = date.fromisoformat(day)
        if ahead <= today:
            continue
        was, is_now = before.get(day), now.get(day)
        if is_now is None:
            yield f"{day_words(ahead)}: nothing is planned for you any more."
        elif was is None:
            yield f"{day_words(ahead)}, from {is_now[0]}: {is_now[1]}."
        elif was[0] != is_now[0]:
            yield f"{day_words(ahead)}: from {is_now[0]} instead of {was[0]}: {is_now[1]}."


def _cars(before: Mapping[str, list[str]], now: Mapping[str, list[str]]) -> Iterator[str]:
    """A car that became fit, or was and is not any more; from not known to not fit is no news."""
    for key, (state, sentence) in now.items():
        was = before.get(key)
        if was is not None and was[0] != state and FIT in (was[0], state):
            yield sentence
