"""Where a car's figures come from, and its dimensions as its page lists them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import SUMS
from builds.bench.dimensions import AXLES, DIMENSIONS
from builds.bench.frame.sums import Sum
from builds.bench.frame.units import unit_in
from builds.readings.engine.vocabulary import READINGS
from builds.readings.engine.why_not import end_words
from builds.sums.facts.car import CarFigure, dimensions_of
from garage.clock import zone
from garage.engine.moments import moment_words
from garage.engine.said import says_unit
from garage.models import Vehicle

# In which unit each dimension is asked for, by slug.
UNITS_OF = {
    ask.figure.format(axle=axle): ask.unit
    for asked in SUMS.values()
    for ask in asked.asks
    for axle, _ in AXLES
    if ask.figure
}


@dataclass(frozen=True)
class DimensionRow:
    """`source` is by whom it was measured and when, `void` why it holds no more."""

    label: str
    typed: str
    source: str
    void: str


def source_lines(asked: Sum, known: Mapping[str, CarFigure], system: str, at: datetime) -> list[str]:
    """A sentence for each source of the figures that were filled in, and one for each that holds no more."""
    sources: dict[str, list[str]] = {}
    void = []
    for ask in asked.asks:
        figure = known.get(ask.slug)
        if figure and figure.changed:
            void.append(f"{ask.label}, {_in(ask.unit, figure)}, no longer holds: {_changed(figure, at)}")
        elif figure:
            sources.setdefault(_source(figure, at), []).append(ask.label)
    return [f"{', '.join(_once(labels))}: {source}." for source, labels in sources.items()] + void


def dimension_rows(vehicle: Vehicle, at: datetime) -> list[DimensionRow]:
    """Every dimension that is known of a car, in the order of the table."""
    known = dimensions_of(vehicle, at)
    return [
        DimensionRow(
            one.label,
            _in(UNITS_OF.get(slug, ""), known[slug]),
            _source(known[slug], at),
            _changed(known[slug], at) if known[slug].changed else "",
        )
        for slug, one in DIMENSIONS.items()
        if slug in known
    ]


def _shown(figure: CarFigure) -> str:
    """As it was typed, in one line."""
    return "; ".join(figure.typed.splitlines())


def _in(unit: str, figure: CarFigure) -> str:
    beside = "" if says_unit(figure.typed) else unit_in(unit, figure.units)
    return f"{_shown(figure)} {beside}".strip()


def _source(figure: CarFigure, at: datetime) -> str:
    if figure.reading:
        return f"the newest reading of {READINGS[figure.reading].label.lower()} that stands"
    if figure.at is None:
        return "as the page of the car has it"
    return f"measured by {figure.by}, {moment_words(figure.at, zone(), at)}"


def _changed(figure: CarFigure, at: datetime) -> str:
    work = figure.changed
    return f"{end_words(work, zone(), at)}. Measure it again." if work else ""


def _once(labels: list[str]) -> list[str]:
    first, *rest = labels
    return [first, *(label[0].lower() + label[1:] for label in rest)]
