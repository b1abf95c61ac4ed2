"""The pack list in words, for paper."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.packing.facts import entries_of
from builds.packing.pages.pack_list import PackRow, pack_view
from builds.verdict.pages import SheetHead, head_of
from garage.engine.moments import moment_words
from garage.models import Event


@dataclass(frozen=True)
class PackTick:
    """`packed` when it is in already."""

    what: str
    note: str
    packed: bool


@dataclass(frozen=True)
class PackSheet:
    head: SheetHead
    event: str
    leaves: str
    done: str
    sections: tuple[tuple[str, tuple[PackTick, ...]], ...]
    left: tuple[str, ...]


def pack_sheet_rows(event: Event, at: datetime) -> PackSheet:
    view = pack_view(event)
    cars = [entry.vehicle for entry in entries_of(event)]
    return PackSheet(
        head_of(event.garage, at, cars, reverse("pack_list", args=[event.pk])),
        event.name,
        moment_words(event.due_at, ZoneInfo(event.garage.time_zone), at),
        f"{view.done} of {view.of} packed" if view.packlist else "",
        tuple((section.title, tuple(map(_tick, section.rows))) for section in view.sections),
        tuple(f"{line.what}, {line.why}" if line.why else line.what for line in view.left),
    )


def _tick(row: PackRow) -> PackTick:
    what = f"{row.what}: {row.amount}" if row.amount else row.what
    note = ", ".join(filter(None, [row.car, row.where])) + (f". {row.why}" if row.why else "")
    return PackTick(what, note.lstrip(". "), row.packed)
