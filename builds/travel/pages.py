"""What stands against how the cars get to their events, in sentences."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from builds.travel.engine import TakerState, Trouble, troubles
from builds.travel.facts import ride_of, rides_ahead, verdicts_on_the_way
from builds.verdict.engine import Verdict
from garage.models import Entry, Event, Garage


def travel_troubles(garage: Garage, at: datetime) -> list[Trouble]:
    """Of all events that are not over; one query while nobody said how a car gets there."""
    entries = rides_ahead(garage, at)
    return troubles_of(entries, verdicts_on_the_way(garage, entries, at))


def troubles_of(entries: Iterable[Entry], verdicts: Mapping[int, Verdict]) -> list[Trouble]:
    """As `travel_troubles`, with the verdicts (by car) of what takes a car and what is driven. No query."""
    rides = [ride_of(entry) for entry in entries]
    return troubles(rides, {pk: TakerState.of(judged) for pk, judged in verdicts.items()})


def troubles_on(event: Event, at: datetime) -> list[str]:
    """Against how its cars get there; nothing once it is over."""
    return [trouble.sentence for trouble in travel_troubles(event.garage, at) if event.pk in trouble.events]


def troubles_of_entry(entry: Entry, at: datetime) -> list[str]:
    """Against how one car gets to its event; no query while nobody said how."""
    if not entry.travels:
        return []
    return [trouble.sentence for trouble in travel_troubles(entry.event.garage, at) if entry.pk in trouble.entries]
