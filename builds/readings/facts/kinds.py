"""Kinds of reading as a garage has them: those that every garage has, and its own."""

from builds.readings.engine import READINGS
from builds.readings.engine.reading_kind import ReadingKind, own_kind, shipped_kind
from builds.readings.models.reading import OwnKind
from garage.models import Garage
from garage.remembered import remembered


def kinds_of(garage: Garage) -> dict[str, ReadingKind]:
    """Every kind by its key, in measuring order, the garage's own last; one query, none where it is remembered."""
    own = remembered(garage, "own_kinds", lambda: [own_kind(kept) for kept in OwnKind.objects.in_garage(garage)])
    return {kind.key: kind for kind in (*map(shipped_kind, READINGS), *own)}


def kind_of(garage: Garage, key: str) -> ReadingKind | None:
    if key in READINGS:
        return shipped_kind(key)
    own = OwnKind.objects.in_garage(garage).called(key).first()
    return own_kind(own) if own else None
