"""How cars get to the events ahead, and what stands against it, from rows."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime

from builds.travel.engine import Ride, Trip, Trouble, clashes, said_of_entry, said_of_event, taker_state, troubles
from builds.verdict.engine import Verdict, verdict
from builds.verdict.facts.fleet import facts_of
from garage.access import refuse_presence
from garage.facts.entries import kept_ahead
from garage.facts.presence import events_of
from garage.models import Entry, Event, Garage, Membership, Vehicle
from garage.remembered import remembered


def ride_of(entry: Entry) -> Ride:
    """Event, vehicle and `tow` attached."""
    return Ride(
        entry=entry.pk,
        event=entry.event_id,
        event_name=entry.event.name,
        car=entry.vehicle_id,
        car_name=entry.vehicle.name,
        leaves=entry.event.due_at,
        back=entry.event.back_at,
        how=entry.travels,
        taker=entry.tow_id,
        taker_name=entry.tow.name if entry.tow else "",
        trailer=entry.trailer,
    )


def travel_troubles(garage: Garage, at: datetime) -> list[Trouble]:
    """Of all events that are not over; three queries while nobody said how a car gets there."""
    entries = kept_ahead(garage, at)
    asked = {vehicle.pk: vehicle for entry in entries for vehicle in _asked(entry)}
    facts = facts_of(garage, at, asked.values()) if asked else {}
    people = remembered(garage, "who_goes", lambda: _who_goes(garage, at))
    return troubles_of(entries, {pk: verdict(known) for pk, known in facts.items()}, people, at)


def told_to(reader: Membership | None, troubles: Iterable[Trouble]) -> list[Trouble]:
    """Not who goes, where the reader may not see who is not at home; a command, which has none, is told all."""
    hides = reader is not None and refuse_presence(reader) is not None
    return [trouble for trouble in troubles if not (hides and trouble.tells_who)]


def troubles_on(event: Event, reader: Membership, at: datetime) -> list[str]:
    """What stands against how its cars get there, in sentences; nothing once it is over."""
    return said_of_event(told_to(reader, travel_troubles(event.garage, at)), event.pk)


def troubles_of_entry(garage: Garage, entry: Entry, at: datetime) -> list[str]:
    """What stands against how one car gets to its event, in sentences."""
    return said_of_entry(travel_troubles(garage, at), entry.pk)


def rides_ahead(garage: Garage, at: datetime) -> list[Entry]:
    """The entries of events that are not over for which it is said how the car gets there."""
    return [entry for entry in kept_ahead(garage, at) if entry.travels]


def troubles_of(
    entries: Iterable[Entry], verdicts: Mapping[int, Verdict], people: Iterable[Membership], at: datetime
) -> list[Trouble]:
    """As `travel_troubles`, with the verdicts (by car) of what takes a car and what is driven, and the members
    with the events they go to. No query.
    """
    rides = [ride_of(entry) for entry in entries]
    states = {pk: taker_state(of_car) for pk, of_car in verdicts.items()}
    return [*clashes(rides, _trips(people, at)), *troubles(rides, states)]


def _who_goes(garage: Garage, at: datetime) -> list[Membership]:
    """With the events that they are not back from `at` a moment; `_trips` leaves out what is over later."""
    rows = Membership.objects.in_garage(garage).active().select_related("person")
    return list(rows.prefetch_related(events_of(at)))


def _trips(people: Iterable[Membership], at: datetime) -> Iterator[Trip]:
    """To events that are not over."""
    for member in people:
        for event in member.events.all():
            if event.ends_at > at:
                yield Trip(member.pk, member.name, event.pk, event.name, event.due_at, event.back_at)


def _asked(entry: Entry) -> list[Vehicle]:
    """The vehicles whose state counts on the way."""
    if entry.travels == Entry.Travels.DRIVEN:
        return [entry.vehicle]
    return [entry.tow] if entry.tow else []
