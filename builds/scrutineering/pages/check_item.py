"""One scrutineering item: how it stands, and everything that was done to it."""

from dataclasses import dataclass
from datetime import datetime

from builds.scrutineering.engine.check_states import UNDO
from builds.scrutineering.engine.ticks import void_of
from builds.scrutineering.facts.items import fail_jobs
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.scrutineering.pages.check_list import CheckRow
from garage.models import Entry

DID = {
    "tick": "ticked",
    "fail": "failed",
    "leave_out": "does not apply",
    "mend": "ticked as mended",
    UNDO: "taken back",
}
LATE_SECONDS = 60


@dataclass(frozen=True)
class CheckLogLine:
    """What was done, by whom, when; `late` when it came from a phone after a while."""

    row: CheckLog
    did: str
    late: bool
    undone: bool


@dataclass(frozen=True)
class ItemView:
    entry: Entry
    row: CheckRow
    log: tuple[CheckLogLine, ...]


def item_view(item: CheckItem, at: datetime) -> ItemView:
    entry = Entry.objects.select_related("event__garage", "vehicle").get(check_lists=item.checklist_id)
    rows = list(CheckLog.objects.filter(item=item).select_related("by", "by__person", "job"))
    undone = {line.answers_id for line in rows if line.step == UNDO}
    works = touched_of(entry.event.garage, [entry.vehicle], at)[entry.vehicle_id]
    return ItemView(
        entry,
        CheckRow(item, "", void_of(item, works, entry.event.gates_at, at), fail_jobs([item]).get(item.pk)),
        tuple(
            CheckLogLine(
                line,
                DID[line.step],
                (line.arrived_at - line.at).total_seconds() > LATE_SECONDS,
                line.pk in undone,
            )
            for line in reversed(rows)
        ),
    )
