"""What sums know of a car: its figures as they were kept, its readings, and the work since."""

from dataclasses import dataclass
from datetime import datetime

from builds.bench.catalogue import sum_called
from builds.bench.frame.sums import Sum
from builds.readings.engine.fields import fields_of
from builds.readings.engine.figures import typed_metric
from builds.readings.engine.void import STANDS, FinishedWork, TakenReading, makes_void
from builds.readings.facts.finished import finished_work
from builds.readings.facts.readings import readings_of
from builds.sums.models import KeptSum
from garage.models import Vehicle


@dataclass(frozen=True)
class CarFigure:
    """A figure that a car has: as it was typed, in which units, in which kept sum or of which reading (kind)."""

    typed: str
    units: str
    kept: KeptSum | None = None
    reading: str = ""


def car_figures(vehicle: Vehicle, asked: Sum, at: datetime) -> dict[str, CarFigure]:
    """What is known of a car of all that a sum asks, by `figure` and `reading` of its asks."""
    kinds = {ask.reading.partition(".")[0] for ask in asked.asks if ask.reading}
    return figures_kept(vehicle) | figures_read(vehicle, kinds, at)


def figures_kept(vehicle: Vehicle) -> dict[str, CarFigure]:
    """By what a car keeps it under, the figure of the newest sum that has it; one query."""
    figures: dict[str, CarFigure] = {}
    for kept in KeptSum.objects.on(vehicle).newest().select_related("by__person"):
        asked = sum_called(kept.name)
        for ask in asked.asks if asked else ():
            if ask.figure and ask.slug in kept.typed and ask.figure not in figures:
                figures[ask.figure] = CarFigure(kept.typed[ask.slug], kept.units, kept)
    return figures


def figures_read(vehicle: Vehicle, kinds: set[str], at: datetime) -> dict[str, CarFigure]:
    """By `kind.field`, the figures of the readings of these kinds (slugs) that stand; of what lapsed none."""
    figures: dict[str, CarFigure] = {}
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines if kinds else {}
    for kind in sorted(kind for kind in kinds if kind in lines and lines[kind].state == STANDS):
        for field in fields_of(kind):
            amount = lines[kind].amounts.get(field.slug)
            if amount is not None and field.stored:
                figures[kind + "." + field.slug] = CarFigure(typed_metric(field, amount), "metric", reading=kind)
    return figures


def disturbed(vehicle: Vehicle, sums: list[KeptSum], at: datetime) -> dict[int, FinishedWork]:
    """By sum (pk), the first work since, or going on, that changes what it rests on; three queries."""
    if not sums:
        return {}
    works = finished_work([vehicle], min(kept.at for kept in sums), at).get(vehicle.pk, [])
    hit: dict[int, FinishedWork] = {}
    for kept in sums:
        asked = sum_called(kept.name)
        taken = TakenReading(kept.at)
        for work in sorted(works, key=lambda work: work.ended):
            if asked and any(makes_void(work, kind, taken) for kind in asked.offered.readings):
                hit.setdefault(kept.pk, work)
    return hit
