"""What the verdict is told of scrutineering items, car by car."""

from collections import defaultdict
from datetime import datetime

from builds.scrutineering.engine.check_list import SCRUTINEERING
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import CarWork
from builds.scrutineering.facts.car_works import works_of
from builds.scrutineering.facts.items import void_of
from builds.scrutineering.models.check import CheckItem, CheckList, OrganiserList
from builds.verdict.engine import CheckFact
from builds.verdict.engine.records import LEFT_OUT, STANDS
from garage.models import Entry, Garage, Vehicle

FactsByCar = dict[int, tuple[CheckFact, ...]]
# So many items that nobody has looked at are named; of more it is said how many they are.
NAMED = 5


def checks_facts(garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]) -> FactsByCar:
    """Of each car (pk) with a list on record, the items that count.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event. At most five queries.
    """
    asked = {entries[car.pk].pk: car for car in cars if car.pk in entries}
    lists = list(CheckList.objects.filter(entry__in=list(asked)))
    listed = {checklist.entry_id for checklist in lists if checklist.kind == SCRUTINEERING}
    items: dict[int, list[CheckItem]] = defaultdict(list)
    for item in CheckItem.objects.filter(checklist__in=lists).select_related("checklist"):
        items[item.checklist.entry_id].append(item)
    ticked = [item.at for listing in items.values() for item in listing if item.state == CheckState.TICKED and item.at]
    held = [car for pk, car in asked.items() if pk in listed]
    works = works_of(garage, held, at, min(ticked)) if ticked else {}
    stale = _stale(garage, [checklist for checklist in lists if checklist.kind == SCRUTINEERING], asked, entries)
    return {
        asked[pk].pk: (
            *([stale[pk]] if pk in stale else []),
            *_facts(entries[asked[pk].pk], items[pk], works.get(asked[pk].pk, [])),
        )
        for pk in sorted(listed)
    }


def _stale(
    garage: Garage, lists: list[CheckList], asked: dict[int, Vehicle], entries: dict[int, Entry]
) -> dict[int, CheckFact]:
    """Of entries (pk) whose list is not the one their organiser looks at now: that it is not."""
    if not lists:
        return {}
    own = {name.casefold(): name for name in OrganiserList.objects.in_garage(garage).names()}
    stale = {}
    for checklist in lists:
        entry = checklist.entry_id
        organiser = entries[asked[entry].pk].event.organiser.casefold()
        now = own.get(organiser, "") if organiser else ""
        if now != checklist.organiser:
            was, now = checklist.organiser or "the general list", now or "the general list"
            words = f"It was made by {was}, and the event is looked at by {now}: make it again."
            stale[entry] = CheckFact(entry, "the list itself", "open", words)
    return stale


def _facts(own: Entry, items: list[CheckItem], works: list[CarWork]) -> tuple[CheckFact, ...]:
    entry, failed, void, unseen, ticked, left_out = own.pk, [], [], [], [], []
    for item in items:
        name = item.text.rstrip(".")
        if item.state == CheckState.LEFT_OUT:
            left_out.append(CheckFact(entry, name, LEFT_OUT))
        elif item.state == CheckState.FAILED:
            failed.append(CheckFact(entry, name, "failed", f"{item.note.rstrip('.')}." if item.note else ""))
        elif item.state == CheckState.OPEN:
            unseen.append(CheckFact(entry, name, "open"))
        elif why := void_of(item, works, own.event.gates_at):
            void.append(CheckFact(entry, name, "open", why))
        else:
            ticked.append(CheckFact(entry, name, STANDS, "", tuple(item.systems), tuple(item.kinds)))
    if len(unseen) > NAMED:
        many = f"{len(unseen)} of the {len(items)} items of the scrutineering list"
        unseen = [CheckFact(entry, many, "open")]
    return (*failed, *void, *unseen, *ticked, *left_out)
