"""Items of a list as the verdict is told of them: the worst first, each with what is said of it."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from builds.scrutineering.engine.check_states import CheckState
from builds.verdict.engine.check_facts import check_facts
from builds.work.engine.car_work import RUNNING, CarWork

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
HOUR = timedelta(hours=1)


@dataclass
class Item:
    text: str
    state: str = CheckState.OPEN
    at: datetime | None = None
    systems: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    note: str = ""


def told(*items, works=()):
    return [
        (fact.name, fact.state, fact.words) for fact in check_facts(4, items, works, AT + 24 * HOUR, AT + 48 * HOUR)
    ]


def test_items_are_told_the_worst_first():
    brakes = CarWork("Bleed", frozenset({"brakes"}), frozenset(), AT + HOUR)
    items = [
        Item("Left out.", CheckState.LEFT_OUT),
        Item("Stands.", CheckState.TICKED, AT, ("steering",)),
        Item("Nobody looked."),
        Item("Touched.", CheckState.TICKED, AT, ("brakes",)),
        Item("Failed.", CheckState.FAILED, note="It leaks."),
        Item("Failed in silence.", CheckState.FAILED),
    ]
    assert told(*items, works=[brakes]) == [
        ("Failed", "failed", "It leaks."),
        ("Failed in silence", "failed", ""),
        ("Touched", "open", "Touched since: “Bleed” was worked on until 2 Mar."),
        ("Nobody looked", "open", ""),
        ("Stands", "stands", ""),
        ("Left out", "left_out", ""),
    ]


def test_running_at_the_list_s_own_event_takes_no_tick_away():
    nuts = Item("Nuts", CheckState.TICKED, AT, kinds=(RUNNING,))
    before = CarWork("Saltmarsh", frozenset(), frozenset({RUNNING}), AT + HOUR, words="It ran at Saltmarsh on 2 Mar.")
    there = CarWork("Kiln Lane", frozenset(), frozenset({RUNNING}), AT + 25 * HOUR, words="It ran there.")
    assert told(nuts, works=[there]) == [("Nuts", "stands", "")]
    assert told(nuts, works=[before]) == [("Nuts", "open", "Touched since: It ran at Saltmarsh on 2 Mar.")]
