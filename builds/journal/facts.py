"""The things that lines of the journal are about, by kind, and which lines are about one of them."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from builds.work.models.job import Job
from garage.engine.journal import people_in
from garage.models import Event, JournalLine, Membership, Vehicle
from garage.models.journal import JournalLineQuerySet
from parts.models import Part

# By the word with which a thing's address begins.
MODELS: dict[str, Any] = {"cars": Vehicle, "jobs": Job, "events": Event, "people": Membership, "parts": Part}


def thing_of(kind: str, key: int, reader: Membership) -> Any:
    """The row of the reader's garage, or None."""
    model = MODELS.get(kind)
    return model.objects.visible_to(reader).filter(pk=key).first() if model else None


def lines_about(kind: str, key: int, reader: Membership) -> JournalLineQuerySet:
    """Of a car those of its jobs too."""
    rows = JournalLine.objects.visible_to(reader)
    if kind == "cars":
        return rows.about((kind, [key]), ("jobs", Job.objects.filter(vehicle=key).values("pk")))
    return rows.about((kind, [key]))


def things_by_tie(lines: Iterable[JournalLine], reader: Membership) -> dict[tuple[str, int], Any]:
    """The rows that are still there, by kind and key, those named in what was said included; a query a kind."""
    wanted: dict[str, set[int]] = defaultdict(set)
    for line in lines:
        wanted["people"] |= people_in(line.said)
        for tie in line.ties.all():
            wanted[tie.kind].add(tie.of)
    known: dict[tuple[str, int], Any] = {}
    for kind, keys in wanted.items():
        rows = MODELS[kind].objects.visible_to(reader).filter(pk__in=keys)
        rows = rows.select_related("vehicle") if kind == "jobs" else rows
        rows = rows.select_related("person") if kind == "people" else rows
        known |= {(kind, thing.pk): thing for thing in rows}
    return known
