"""The next events of the cars, and what the plan makes of each."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.cars.facts import Fleet
from builds.plan.engine.outlook import Outlook
from builds.plan.engine.stored import Stored
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks, outlooks_of
from builds.plan.facts.prospects import prospects_of
from builds.travel.engine import ride_words
from builds.travel.facts import ride_of
from builds.verdict.engine.on_plan import OnPlan
from builds.work.engine.open_work import Work
from garage.clock import clock_words, zone
from garage.facts.entries import first_of_each_car
from garage.models import Entry


@dataclass(frozen=True)
class NextEvent:
    """`on_plan` only for the first of a car's events; `rides` says how it gets there, if anybody did.

    `day_url` leads to the page of the day once its day has come.
    """

    entry: Entry
    event: str
    url: str
    car: str
    car_url: str
    tape: str
    leaves: str
    outlook: Outlook
    on_plan: OnPlan | None
    rides: str
    day_url: str = ""


def next_events(fleet: Fleet, entries: list[Entry], plan: Stored | None, work: Work) -> tuple[NextEvent, ...]:
    """`entries` of the fleet in their order, car and event attached; queries only for a car's second event."""
    first, jobs, to_do = first_of_each_car(entries), must_do(work.jobs.values()), work.jobs.values()
    ahead = prospects_of({car: fleet.facts[car] for car in first}, first, plan, work.jobs)
    later = [entry for entry in entries if entry != first[entry.vehicle_id]]
    said = outlooks_of(plan, first.values(), jobs, ahead, work.at) | outlooks(fleet.garage, plan, later, to_do, work.at)
    return tuple(
        NextEvent(
            entry=entry,
            event=entry.event.name,
            url=reverse("event_page", args=[entry.event_id]),
            car=entry.vehicle.name,
            car_url=reverse("vehicle_page", args=[entry.vehicle_id]),
            tape=entry.vehicle.tape,
            leaves=clock_words(entry.event.due_at, work.at),
            outlook=said[entry.pk],
            on_plan=ahead[entry.vehicle_id].on_plan if entry == first[entry.vehicle_id] else None,
            rides=ride_words(ride_of(entry)),
            day_url=_day_url(entry, work.at),
        )
        for entry in entries
    )


def _day_url(entry: Entry, at: datetime) -> str:
    """From the midnight before the cars leave."""
    leaves = entry.event.due_at.astimezone(zone()).replace(hour=0, minute=0)
    return reverse("paddock_page", args=[entry.event_id]) if at >= leaves else ""
