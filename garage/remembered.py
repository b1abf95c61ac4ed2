"""What a process remembers of a garage's rows, until somebody writes to the garage."""

from collections.abc import Callable, Hashable
from datetime import datetime
from typing import Any, TypeVar

from django.conf import settings
from django.db import connection

from garage.models import Garage

MOST_GARAGES = 50
Notes = dict[Hashable, Any]
Thing = TypeVar("Thing")

_notes: dict[int, tuple[tuple[Any, ...], Notes]] = {}


def notes_of(garage: Garage) -> Notes | None:
    """What is remembered of its rows as they are, to be read and added to; None where nothing may be.

    Each write raises the count that `garage` was read with, before anything else was: what is written
    meanwhile is newer than the notes say, never older. The rest of the version tells a garage from one of
    another backup. Not in a transaction: what is read there may have been written there, and be taken back.
    """
    if not settings.REMEMBERS or connection.in_atomic_block:
        return None
    version = (garage.writes, garage.written_at, garage.created_at)
    kept = _notes.get(garage.pk)
    if kept is None or kept[0] != version:
        if len(_notes) >= MOST_GARAGES:
            _notes.clear()
        kept = _notes[garage.pk] = (version, {})
    return kept[1]


def remembered(garage: Garage, name: Hashable, load: Callable[[], Thing]) -> Thing:
    """What `load` reads of rows whose every write is counted, whatever the clock says; nobody may change it."""
    notes = notes_of(garage)
    if notes is None:
        return load()
    if name not in notes:
        notes[name] = load()
    thing: Thing = notes[name]
    return thing


def remembered_ahead(
    garage: Garage, name: Hashable, at: datetime, load: Callable[[], list[Thing]], ends: Callable[[Thing], datetime]
) -> list[Thing]:
    """As `remembered`, of what `load` reads that is not over `at` a moment: the clock only ever ends some of it."""
    since, things = remembered(garage, name, lambda: (at, load()))
    if at < since:  # a clock that was set back
        things = load()
    return [thing for thing in things if ends(thing) > at]
