"""What each car is short of, as the lists of an event ask it."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import datetime

from builds.gear.facts.failing import gear_facts
from builds.scrutineering.engine.lacks import Lack, gear_lack, owed_lack
from builds.work.models.owed import Owed
from garage.models import Entry, Garage


def lacks_of(garage: Garage, at: datetime, entries: dict[int, Entry]) -> Mapping[int, list[Lack]]:
    """What each entered car (pk) is owed, and which of its gear does not pass on the day."""
    lacks: dict[int, list[Lack]] = defaultdict(list)
    cars = [entry.vehicle for entry in entries.values()]
    for car, gear in gear_facts(garage, cars, at, entries).items():
        lacks[car] += map(gear_lack, gear)
    rows = Owed.objects.filter(vehicle__in=cars).open().select_related("move__part")
    for owed in rows:
        lacks[owed.vehicle_id].append(owed_lack(owed.move.part.name, owed.move.part.touches))
    return lacks
