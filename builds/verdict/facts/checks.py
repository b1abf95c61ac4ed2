"""What the verdict is told of scrutineering items, car by car."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.scrutineering.engine.check_list import SCRUTINEERING
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.models.check import CheckItem, CheckList, OrganiserList
from builds.verdict.engine import CheckFact, StaleList
from builds.verdict.engine.check_facts import check_facts
from builds.work.facts.runs import RunsByCar
from garage.models import Entry, Garage, Vehicle


@dataclass(frozen=True)
class CarChecks:
    """The items that count for a car's next entry; `stale` when its list is not its organiser's."""

    items: tuple[CheckFact, ...]
    stale: StaleList | None


def checks_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: Mapping[int, Entry], runs: RunsByCar
) -> dict[int, CarChecks]:
    """Of each car (pk) with a list on record, the items that count.

    A car left out has nothing on record, which is not known and therefore not fit. `entries` are
    the cars' next entries with their event, `runs` what `runs_of` says. At most five queries.
    """
    asked = {entries[car.pk].pk: car for car in cars if car.pk in entries}
    lists = list(CheckList.objects.filter(entry__in=list(asked)))
    listed = {checklist.entry_id: checklist for checklist in lists if checklist.kind == SCRUTINEERING}
    items: dict[int, list[CheckItem]] = defaultdict(list)
    for item in CheckItem.objects.filter(checklist__in=lists).select_related("checklist"):
        items[item.checklist.entry_id].append(item)
    ticked = [item.at for listing in items.values() for item in listing if item.state == CheckState.TICKED and item.at]
    held = [car for pk, car in asked.items() if pk in listed]
    works = touched_of(garage, held, at, back=min(ticked), runs=runs) if ticked else {}
    organisers = _organisers(garage) if listed else {}
    checks = {}
    for pk, checklist in sorted(listed.items()):
        car = asked[pk].pk
        event = entries[car].event
        looked_at_by = organisers.get(event.organiser.casefold(), "")
        stale = StaleList(pk, checklist.organiser, looked_at_by) if looked_at_by != checklist.organiser else None
        told = check_facts(pk, items[pk], works.get(car, []), event.gates_at, at)
        checks[car] = CarChecks(told, stale)
    return checks


def _organisers(garage: Garage) -> dict[str, str]:
    """Names of the organisers whose own lists the garage keeps, by themselves in small letters; one query."""
    return {name.casefold(): name for name in OrganiserList.objects.in_garage(garage).names()}
