"""What to pack for an event: papers, gear, tools, spares and consumables, each with why."""

import tomllib
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from builds.scrutineering.engine.check_list import HAS
from garage.engine.vocabulary import known
from parts.engine.words import amount_words

FILE = Path(__file__).with_name("general.toml")
SECTIONS: dict[str, str] = {
    "papers": "Papers",
    "gear": "Driver's gear and safety",
    "tools": "Tools",
    "spares": "Spares",
    "consumables": "Consumables",
    "own": "Besides",
}
# Why a part in the stores goes along.
BECAUSE = {
    "needed": "A job still needs it.",
    "fitted": "The like of it was fitted before.",
    "touched": "Touched since the last event: {systems}.",
}
OWED = "Owed: it is not back."
RUNS = 4
RUNS_MOST = 99


@dataclass(frozen=True, slots=True)
class Always:
    """A line that goes along every time, for the event or for each car.

    `base` + `per_run` for a run, in `unit`, rounded up to a multiple of `step`; none where both are 0.
    """

    key: str
    section: str
    what: str
    per_car: bool
    unit: str = ""
    base: int = 0
    per_run: int = 0
    step: int = 1
    has: tuple[str, ...] = ()

    def amount(self, runs: int) -> str:
        """How much for so many runs, in words; "" where it is not counted. An estimate."""
        total = self.base + self.per_run * runs
        return f"{-(-total // self.step) * self.step} {self.unit}" if total else ""


@dataclass(frozen=True, slots=True)
class SparePart:
    """So much of a part in the stores that may serve a car, `because` it is needed, fitted or touched.

    Touched are its `systems` (slugs), by work since the car's last event.
    """

    part: int
    name: str
    unit: str
    quantity: int
    because: str
    systems: tuple[str, ...] = ()

    @property
    def amount(self) -> str:
        return amount_words(self.unit, self.quantity)

    @property
    def why(self) -> str:
        return BECAUSE[self.because].format(systems=", ".join(sorted(self.systems)))


@dataclass(frozen=True, slots=True)
class Car:
    """An entered car: what it has (None: nobody has said), its spares, what is owed to it.

    `tools` are (tool, title of the job or recipe that asks for it); `owed` are (key, what).
    """

    id: int
    name: str
    has: frozenset[str] | None = None
    spares: tuple[SparePart, ...] = ()
    owed: tuple[tuple[str, str], ...] = ()
    tools: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class PackLine:
    """One line of the list; `key` stays the same from one making to the next. `car` None: all."""

    key: str
    section: str
    what: str
    car: int | None = None
    amount: str = ""
    why: str = ""
    part: int | None = None


@cache
def load_always() -> tuple[Always, ...]:
    """The lines that always go along; ValueError for an unknown section or an odd amount.

    Source: common practice, no source; amounts are guesses to pack by.
    """
    lines = tuple(map(_always, tomllib.loads(FILE.read_text(encoding="utf-8"))["lines"]))
    if len({line.key for line in lines}) < len(lines):
        raise ValueError("Two lines of the pack list share a key.")
    return lines


def _always(row: dict[str, Any]) -> Always:
    known([row["section"]], SECTIONS, "section of a pack list")
    known(row.get("has", ()), HAS, "thing that a car may have")
    known([row["per"]], ("event", "car"), "reach of a line")
    line = Always(
        row["key"],
        row["section"],
        row["what"],
        row["per"] == "car",
        row.get("unit", ""),
        row.get("base", 0),
        row.get("per_run", 0),
        row.get("step", 1),
        tuple(row.get("has", ())),
    )
    if min(line.base, line.per_run) < 0 or line.step < 1:
        raise ValueError(f"The amount of {line.key} must grow with the runs.")
    return line


def pack(cars: Iterable[Car], runs: int) -> tuple[PackLine, ...]:
    """Every line for these cars and so many runs each (1 to 99), section by section.

    A tool stands once, whoever asks for it, and so does a part that several cars may need: that
    one belongs to no car alone. ValueError for a number of runs out of bounds.
    """
    if not 1 <= runs <= RUNS_MOST:
        raise ValueError(f"Runs are 1 to {RUNS_MOST}.")
    fleet = tuple(cars)
    lines = [
        PackLine(f"always:{line.key}", line.section, line.what, None, line.amount(runs))
        for line in load_always()
        if not line.per_car
    ]
    for car in fleet:
        lines += _always_of(car, runs)
        lines += [PackLine(f"owed:{key}", "spares", what, car.id, why=OWED) for key, what in car.owed]
    lines += _tools(fleet, {line.what.casefold() for line in lines if line.section == "tools"})
    lines += _spares(fleet)
    order = list(SECTIONS)
    lines.sort(key=lambda line: order.index(line.section))
    return tuple(lines)


def _always_of(car: Car, runs: int) -> Iterable[PackLine]:
    for line in load_always():
        if line.per_car and _fits(line.has, car.has):
            key = f"always:{line.key}:car:{car.id}"
            yield PackLine(key, line.section, line.what, car.id, line.amount(runs))


def _fits(wanted: Collection[str], has: frozenset[str] | None) -> bool:
    return has is None or has.issuperset(wanted)


def _tools(fleet: Iterable[Car], there: Collection[str]) -> Iterable[PackLine]:
    asked: dict[str, tuple[str, str]] = {}
    for car in fleet:
        for tool, title in car.tools:
            asked.setdefault(tool.casefold(), (tool, title))
    for key, (tool, title) in asked.items():
        if key not in there:
            yield PackLine(f"tool:{key}"[:200], "tools", tool, None, why=f"For “{title}”")


def _spares(fleet: Iterable[Car]) -> Iterable[PackLine]:
    wanted: dict[int, tuple[SparePart, list[Car]]] = {}
    for car in fleet:
        for spare in car.spares:
            wanted.setdefault(spare.part, (spare, []))[1].append(car)
    for spare, cars in wanted.values():
        alone = len(cars) == 1
        why = spare.why if alone else f"For {' and '.join(car.name for car in cars)}. {spare.why}"
        yield PackLine(
            f"part:{spare.part}",
            "spares",
            spare.name,
            cars[0].id if alone else None,
            spare.amount,
            why,
            spare.part,
        )
