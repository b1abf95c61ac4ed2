"""From the items of a scrutineering list to what the verdict is told of them."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from datetime import datetime
from typing import Protocol

from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.ticks import Ticked, void_of
from builds.verdict.engine.records import LEFT_OUT, STANDS, CheckFact
from builds.work.engine.car_work import CarWork

# How the items are told, the worst first.
ORDER = ("failed", "void", "open", STANDS, LEFT_OUT)


class ListedItem(Ticked, Protocol):
    text: str
    note: str


def check_facts(
    entry: int, items: Iterable[ListedItem], works: Collection[CarWork], gates_at: datetime, now: datetime
) -> tuple[CheckFact, ...]:
    """The items of an entry's (id) lists, given the work on its car, when its event's gates open and `now` (aware)."""
    told: dict[str, list[CheckFact]] = defaultdict(list)
    for item in items:
        name, systems, kinds = item.text.rstrip("."), tuple(item.systems), tuple(item.kinds)
        if item.state == CheckState.LEFT_OUT:
            told[LEFT_OUT].append(CheckFact(entry, name, LEFT_OUT))
        elif item.state == CheckState.FAILED:
            note = f"{item.note.rstrip('.')}." if item.note else ""
            told["failed"].append(CheckFact(entry, name, "failed", note))
        elif item.state == CheckState.OPEN:
            told["open"].append(CheckFact(entry, name, "open"))
        elif why := void_of(item, works, gates_at, now):
            told["void"].append(CheckFact(entry, name, "open", why, since=item.at))
        else:
            told[STANDS].append(CheckFact(entry, name, STANDS, "", systems, kinds, item.at))
    return tuple(fact for state in ORDER for fact in told[state])
