"""Kinds of reading as a garage has them: those that every garage has, and its own."""

from builds.readings.engine import READINGS
from builds.readings.engine.reading_kind import ReadingKind, own_kind, shipped_kind
from builds.readings.models.reading import OwnKind
from garage.models import Garage


def kinds_of(garage: Garage) -> dict[str, ReadingKind]:
    """Every kind by its key, in measuring order, the garage's own last; one query."""
    kinds = [*map(shipped_kind, READINGS), *map(own_kind, OwnKind.objects.in_garage(garage))]
    return {kind.key: kind for kind in kinds}


def kind_of(garage: Garage, key: str) -> ReadingKind | None:
    if key in READINGS:
        return shipped_kind(key)
    own = OwnKind.objects.in_garage(garage).called(key).first()
    return own_kind(own) if own else None
