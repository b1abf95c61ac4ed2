"""What sums know of a car: its dimensions, its readings that stand, and the work that changed one of them since."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.bench.dimensions import DIMENSIONS, dimension_of
from builds.bench.frame.read import length_typed, micrometres_of
from builds.bench.frame.sums import Sum, Texts
from builds.readings.engine.fields import fields_of
from builds.readings.engine.figures import typed_metric
from builds.readings.engine.perches import SPRINGS, leaves_springs
from builds.readings.engine.void import STANDS, FinishedWork
from builds.readings.facts.finished import finished_work
from builds.readings.facts.readings import readings_of
from builds.sums.models import Dimension
from garage.models import Vehicle

# Dimensions that the car's own row keeps, in µm.
OF_VEHICLE = {"wheelbase": "wheelbase_um", "track_front": "track_front_um", "track_rear": "track_rear_um"}


@dataclass(frozen=True)
class CarFigure:
    """A figure of a car as it was typed in its units: measured `by` and `at`, or of a reading (kind) `at`, or its own.

    `changed` is the work since that changes it: it holds no more.
    """

    typed: str
    units: str
    by: str = ""
    at: datetime | None = None
    reading: str = ""
    changed: FinishedWork | None = None


def kinds_asked(asked: Sum) -> set[str]:
    """The kinds of reading (slugs) that a sum asks for."""
    return {ask.reading.partition(".")[0] for ask in asked.asks if ask.reading}


def car_figures(vehicle: Vehicle, asked: Sum, texts: Texts, at: datetime) -> dict[str, CarFigure]:
    """What is known of a car of all that a sum asks, by slug of its asks; a reading that stands comes first."""
    read = figures_read(vehicle, kinds_asked(asked), at)
    kept = dimensions_of(vehicle, at)
    known = {ask.slug: read.get(ask.reading) or kept.get(dimension_of(ask, texts)) for ask in asked.asks}
    return {slug: figure for slug, figure in known.items() if figure}


def dimensions_of(vehicle: Vehicle, at: datetime) -> dict[str, CarFigure]:
    """By slug, the newest of each dimension of a car; three queries."""
    newest: dict[str, Dimension] = {}
    for measured in Dimension.objects.on(vehicle).newest().select_related("by__person"):
        if measured.figure in DIMENSIONS:
            newest.setdefault(measured.figure, measured)
    works = finished_work([vehicle], min(one.at for one in newest.values()), at) if newest else {}
    figures = {slug: _measured(one, works.get(vehicle.pk, [])) for slug, one in newest.items()}
    for slug, column in OF_VEHICLE.items():
        amount = getattr(vehicle, column)
        known = figures.get(slug)
        if amount and (known is None or micrometres_of(known.typed, known.units) != amount):
            figures[slug] = CarFigure(length_typed(amount), "metric")
    return figures


def changes_figure(work: FinishedWork, figure: str) -> bool:
    """Whether work changes a dimension (slug of the table)."""
    dimension = DIMENSIONS[figure]
    stays = dimension.of_spring and leaves_springs(work)
    return not set(work.kinds).difference({SPRINGS} if stays else ()).isdisjoint(dimension.changed_by)


def _measured(one: Dimension, works: Iterable[FinishedWork]) -> CarFigure:
    changes = [work for work in works if work.ended >= one.at and changes_figure(work, one.figure)]
    changed = min(changes, key=lambda work: (work.ended, work.id), default=None)
    return CarFigure(one.typed, one.units, one.by.name, one.at, changed=changed)


def figures_read(vehicle: Vehicle, kinds: set[str], at: datetime) -> dict[str, CarFigure]:
    """By `kind.field`, the figures of the readings of these kinds (slugs) that stand; of what lapsed none."""
    figures: dict[str, CarFigure] = {}
    lines = readings_of(vehicle.garage, [vehicle], at, keys=kinds)[vehicle.pk].lines if kinds else {}
    for kind in sorted(kind for kind in kinds if kind in lines and lines[kind].state == STANDS):
        line = lines[kind]
        for field in fields_of(kind):
            amount = line.amounts.get(field.slug)
            if amount is not None and field.stored:
                figures[kind + "." + field.slug] = CarFigure(
                    typed_metric(field, amount), "metric", at=line.read_at(field.slug), reading=kind
                )
    return figures
