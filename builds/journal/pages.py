"""Lines of the journal as a page shows them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse

from builds.journal.facts import things_by_tie
from builds.work.models.job import Job
from garage.clock import dated_words
from garage.engine.journal import act_words, with_names
from garage.models import JournalLine, Membership

PAGES = {
    "cars": "vehicle_page",
    "jobs": "job_page",
    "events": "event_page",
    "people": "person_page",
    "parts": "part_page",
}
DEVICES = {"phone": "phone", "tablet": "tablet", "computer": "computer", "unknown": "other device"}


@dataclass(frozen=True)
class ThingLink:
    words: str
    url: str


@dataclass(frozen=True)
class JournalRow:
    """`about` are the things that are still there; `said` is what was answered then."""

    at: datetime
    when: str
    who: str
    did: str
    device: str
    said: str
    about: tuple[ThingLink, ...]


def journal_rows(lines: Iterable[JournalLine], reader: Membership) -> list[JournalRow]:
    """Of lines with their members and ties; a query a kind of thing."""
    shown = list(lines)
    things = things_by_tie(shown, reader)
    names = {key: thing.name for (kind, key), thing in things.items() if kind == "people"}
    return [_row(line, things, with_names(line.said, names)) for line in shown]


def thing_words(thing: Any) -> str:
    return f"“{thing}”, {thing.vehicle}" if isinstance(thing, Job) else str(thing)


def _row(line: JournalLine, things: dict[tuple[str, int], Any], said: str) -> JournalRow:
    guest = f"{line.guest} (a guest)" if line.guest else ""
    who = line.member.name if line.member else guest or "A guest"
    return JournalRow(
        line.at, dated_words(line.at), who, act_words(line.act), DEVICES[line.device], said,
        tuple(_links(line, things)),
    )  # fmt: skip


def _links(line: JournalLine, things: dict[tuple[str, int], Any]) -> Iterator[ThingLink]:
    for tie in line.ties.all():
        thing = things.get((tie.kind, tie.of))
        if thing is not None:
            yield ThingLink(thing_words(thing), reverse(PAGES[tie.kind], args=[tie.of]))
