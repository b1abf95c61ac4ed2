"""How far the scrutineering of an event's entries is, and which have run; flat in queries."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.scrutineering.engine.check_list import SCRUTINEERING
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.ticks import void_of
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.models.check import CheckItem
from builds.work.models.entry_run import EntryRun
from garage.models import Entry, Garage


@dataclass(frozen=True)
class EntryTicks:
    """`words` such as "14 of 52, 1 failed"; empty while no list is made."""

    words: str = ""
    ran: EntryRun | None = None


def entry_ticks(garage: Garage, entries: Iterable[Entry], at: datetime) -> dict[int, EntryTicks]:
    """By the pk of the entry; four queries."""
    rows = list(entries)
    ran = {run.entry_id: run for run in EntryRun.objects.filter(entry__in=rows)}
    works = touched_of(garage, [entry.vehicle for entry in rows], at)
    own = {entry.pk: entry for entry in rows}
    counts: dict[int, Counter[str]] = defaultdict(Counter)
    items = CheckItem.objects.filter(checklist__entry__in=rows, checklist__kind=SCRUTINEERING).select_related(
        "checklist"
    )
    for item in items:
        pk = item.checklist.entry_id
        entry = own[pk]
        void = void_of(item, works.get(entry.vehicle_id, []), entry.event.gates_at, at)
        counts[pk][CheckState.OPEN if void else item.state] += 1
    return {entry.pk: EntryTicks(_words(counts[entry.pk]), ran.get(entry.pk)) for entry in rows}


def _words(count: Counter[str]) -> str:
    if not count.total():
        return ""
    done = count[CheckState.TICKED] + count[CheckState.LEFT_OUT]
    failed = f", {count[CheckState.FAILED]} failed" if count[CheckState.FAILED] else ""
    return f"{done} of {count.total()}{failed}"
