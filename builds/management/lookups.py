"""Rows by the names that somebody types at a prompt; a name that finds none says what there is."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.core.management.base import CommandError
from django.db.models import Q, QuerySet

from builds.work.models.job import Job
from garage.models import Entry, Event, Garage, Membership, Vehicle
from parts.models import Part, Place

MOST_NAMED = 12


def the_garage(name: str) -> Garage:
    """The one called so; without a name the only one there is."""
    rows = Garage.objects.order_by("pk")
    if name:
        return _one(rows.filter(name__iexact=name), f"There is no garage called {name}", rows)
    if rows.count() > 1:
        raise CommandError(f"There is more than one garage: say --garage, {_named(rows)}.")
    return _one(rows, "There is no garage yet", rows)


def garages_called(name: str | None) -> Iterable[Garage]:
    """The ones called so, by letter; without a name every garage."""
    garages = Garage.objects.order_by("pk")
    if not name:
        return garages
    named = garages.filter(name=name)
    if not named:
        raise CommandError(f"There is no garage called {name}.")
    return named


def the_car(garage: Garage, name: str) -> Vehicle:
    rows = Vehicle.objects.in_garage(garage).kept()
    return _one(rows.filter(name__iexact=name), f"{garage} has no car called {name}", rows)


def the_event(garage: Garage, name: str, at: datetime) -> Event:
    """The next one of that name; without a name the next of all."""
    rows = Event.objects.in_garage(garage).upcoming(at)
    missing = f"No event called {name} is ahead" if name else "No event is ahead"
    return _one(rows.filter(name__iexact=name) if name else rows, missing, rows, first=True)


def the_entry(garage: Garage | None, car: str, event: str, at: datetime) -> Entry:
    """The next entry of that car; in any garage, if only one has it."""
    rows = Entry.objects.kept().filter(vehicle__name__iexact=car)
    if garage:
        rows = rows.filter(event__garage=garage)
    if event:
        rows = rows.filter(event__name__iexact=event)
    entries = list(rows.upcoming(at).select_related("event__garage", "vehicle__garage"))
    if not entries:
        raise CommandError(f"{car} is not entered for {event or 'anything ahead'}.")
    if len({entry.event.garage_id for entry in entries}) > 1:
        raise CommandError(f"More than one garage has a {car}: print it from its page.")
    return entries[0]


def the_person(garage: Garage, name: str) -> Membership:
    rows = Membership.objects.in_garage(garage).active().select_related("person")
    own = rows.filter(person__name__iexact=name)
    return _one(own, f"Nobody in {garage} is called {name}", rows)


def the_job(garage: Garage, title: str) -> Job:
    """An open one, by its title or by the number in its address."""
    rows = Job.objects.in_garage(garage).open()
    which = Q(title__iexact=title)
    if title.isascii() and title.isdecimal() and len(title) < 19:
        which |= Q(pk=int(title))
    return _one(rows.filter(which), f"No open job is called {title}", rows)


def the_place(garage: Garage, name: str) -> Place:
    rows = Place.objects.in_garage(garage).inside().walking_order()
    which = Q(name__iexact=name) | Q(code__iexact=name)
    return _one(rows.filter(which), f"There is no place called {name}", rows)


def the_part(garage: Garage, name: str) -> Part:
    rows = Part.objects.in_garage(garage).kept()
    which = Q(name__iexact=name) | Q(code__iexact=name)
    return _one(rows.filter(which), f"There is no part called {name}", rows)


def _one(named: QuerySet, missing: str, others: QuerySet, *, first: bool = False) -> Any:
    rows = list(named[:2])
    if not rows:
        there = _named(others)
        raise CommandError(f"{missing}: there is {there}." if there else f"{missing}.")
    if len(rows) > 1 and not first:
        raise CommandError(f"More than one is called {rows[0]}.")
    return rows[0]


def _named(rows: Iterable[Any]) -> str:
    names = [str(thing) for thing in rows]
    more = len(names) - MOST_NAMED
    return ", ".join(names[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
