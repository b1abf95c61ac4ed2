"""Two events at the same time that take the same car, or the same people."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from builds.travel.engine.rides import Ride
from builds.travel.engine.trouble import Trouble
from builds.travel.engine.under_way import at_once
from garage.engine.words import listed_in_words

NUMBERS = {2: "two", 3: "three", 4: "four"}


@dataclass(frozen=True, slots=True)
class Trip:
    """Somebody (key, name) who goes to an event, and is away from `leaves` until `back` (aware)."""

    person: int
    name: str
    event: int
    event_name: str
    leaves: datetime
    back: datetime


def clashes(rides: Iterable[Ride], trips: Iterable[Trip]) -> list[Trouble]:
    """Of entries that are coming, however the cars get there, and of who goes; those of the same events as one."""
    cars: dict[int, list[Ride]] = {}
    people: dict[int, list[Trip]] = {}
    for ride in rides:
        cars.setdefault(ride.car, []).append(ride)
    for trip in trips:
        people.setdefault(trip.person, []).append(trip)
    return [*_of_cars(cars.values()), *_of_people(people.values())]


def _of_cars(cars: Iterable[list[Ride]]) -> Iterator[Trouble]:
    by_events: dict[tuple[int, ...], list[list[Ride]]] = {}
    for rides in cars:
        for together in at_once(rides):
            by_events.setdefault(tuple(ride.event for ride in together), []).append(together)
    for events, groups in by_events.items():
        names = listed_in_words([group[0].car_name for group in groups])
        verb = "is entered" if len(groups) == 1 else "are entered"
        entries = frozenset(ride.entry for group in groups for ride in group)
        yield Trouble(f"{names} {verb} for {_events(groups[0])}.", frozenset(events), entries)


def _of_people(people: Iterable[list[Trip]]) -> Iterator[Trouble]:
    by_events: dict[tuple[int, ...], list[list[Trip]]] = {}
    for trips in people:
        for together in at_once(trips):
            by_events.setdefault(tuple(trip.event for trip in together), []).append(together)
    for events, groups in by_events.items():
        names = listed_in_words([group[0].name for group in groups])
        verb = "goes" if len(groups) == 1 else "go"
        yield Trouble(f"{names} {verb} to {_events(groups[0])}.", frozenset(events), frozenset(), tells_who=True)


def _events(together: list[Ride] | list[Trip]) -> str:
    """`two events at the same time: Saltmarsh Hill Climb and Kiln Lane`."""
    many = NUMBERS.get(len(together), str(len(together)))
    return f"{many} events at the same time: {listed_in_words([going.event_name for going in together])}"
