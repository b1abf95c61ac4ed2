"""What the verdict is told of scrutineering items, car by car."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.scrutineering.engine.check_list import SCRUTINEERING, ListItem
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.engine.scrutineering import asked_since, unlooked_at
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.facts.wanted import ListSources
from builds.scrutineering.models.check import CheckItem, CheckList
from builds.verdict.engine import CheckFact, StaleList
from builds.verdict.engine.check_facts import check_facts
from builds.work.facts.runs import RunsByCar
from garage.models import Entry, Garage, Vehicle


@dataclass(frozen=True)
class CarChecks:
    """The items that count for a car's next entry; `stale` when its list is not its organiser's, or lacks an item.

    `unlooked` as of `unlooked_at`.
    """

    items: tuple[CheckFact, ...]
    stale: StaleList | None
    unlooked: tuple[str, ...] = ()


def checks_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: Mapping[int, Entry], runs: RunsByCar
) -> dict[int, CarChecks]:
    """Of each car (pk) with a list on record, the items that count.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event, `runs` what `runs_of` says. At most six queries.
    """
    asked = {entries[car.pk].pk: car for car in cars if car.pk in entries}
    lists = list(CheckList.objects.filter(entry__in=list(asked)))
    listed = {checklist.entry_id: checklist for checklist in lists if checklist.kind == SCRUTINEERING}
    if not listed:
        return {}
    items: dict[int, list[CheckItem]] = defaultdict(list)
    for item in CheckItem.objects.filter(checklist__in=lists).select_related("checklist"):
        items[item.checklist.entry_id].append(item)
    ticked = [item.at for listing in items.values() for item in listing if item.state == CheckState.TICKED and item.at]
    held = [car for pk, car in asked.items() if pk in listed]
    works = touched_of(garage, held, at, back=min(ticked), runs=runs) if ticked else {}
    sources, checks = ListSources(garage, held), {}
    for pk, checklist in sorted(listed.items()):
        car, event = asked[pk].pk, entries[asked[pk].pk].event
        told = check_facts(pk, items[pk], works.get(car, []), event.gates_at, at)
        listed_items = [item.list_item for item in items[pk] if item.checklist_id == checklist.pk]
        stale = _stale(checklist, listed_items, sources.items(car, event.organiser), sources.organiser(event.organiser))
        checks[car] = CarChecks(told, stale, unlooked_at(listed_items))
    return checks


def _stale(
    checklist: CheckList, listed: list[ListItem], wanted: tuple[ListItem, ...], organiser: str
) -> StaleList | None:
    lacks = len(asked_since(wanted, listed))
    same = organiser == checklist.organiser
    return None if same and not lacks else StaleList(checklist.entry_id, checklist.organiser, organiser, lacks)
