"""The cautions that a job carries, chosen by what it touches."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from builds.readings.engine.kinds_of_work import KINDS
from garage.engine.systems import SYSTEMS
from garage.engine.vocabulary import known

FILE = Path(__file__).with_name("cautions.toml")


@dataclass(frozen=True, slots=True)
class Caution:
    """A short warning and what brings it up: systems, kinds of work, stations (slugs)."""

    key: str
    text: str
    systems: frozenset[str] = frozenset()
    kinds: frozenset[str] = frozenset()
    stations: frozenset[str] = frozenset()


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


@cache
def load_cautions() -> tuple[Caution, ...]:
    """Every caution, worst first. ValueError when one names an unknown system or kind of work."""
    return tuple(
        Caution(
            caution["key"],
            caution["text"],
            known(caution.get("systems", ()), SYSTEMS, "system"),
            known(caution.get("kinds", ()), KINDS, "kind of work"),
            frozenset(caution.get("stations", ())),
        )
        for caution in _file()["cautions"]
    )


def standing_caution() -> str:
    """The line that goes with every computed figure, every job card and every sheet."""
    return str(_file()["standing"])


def cautions_for(
    systems: Iterable[str] = (), kinds: Iterable[str] = (), stations: Iterable[str] = ()
) -> tuple[Caution, ...]:
    """The cautions for a job that touches these systems, kinds of work and stations (slugs).

    Worst first, each once. A station of the garage's own brings up none. ValueError for an
    unknown system or kind of work.
    """
    touched = known(systems, SYSTEMS, "system")
    done = known(kinds, KINDS, "kind of work")
    used = frozenset(stations)
    return tuple(
        caution
        for caution in load_cautions()
        if caution.systems & touched or caution.kinds & done or caution.stations & used
    )
