"""The next events of the cars, and what the plan makes of each."""

from dataclasses import dataclass

from django.urls import reverse

from builds.plan.engine.outcome import CarOutcome
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outcomes_of
from builds.plan.facts.prospects import prospects
from builds.verdict.engine.on_plan import OnPlan
from builds.work.facts.work import Work, clock_words
from garage.facts.entries import first_of_each_car
from garage.models import Entry, Garage


@dataclass(frozen=True)
class NextEvent:
    """`on_plan` only for the first of a car's events."""

    event: str
    url: str
    car: str
    car_url: str
    tape: str
    leaves: str
    outcome: CarOutcome
    on_plan: OnPlan | None


def next_events(garage: Garage, entries: list[Entry], plan: TimedPlan | None, work: Work) -> tuple[NextEvent, ...]:
    """`entries` in their order, car and event attached."""
    outcomes = outcomes_of(plan, entries, must_do(work.jobs.values()), work.at)
    first = first_of_each_car(entries)
    cars = [entry.vehicle for entry in first.values()]
    ahead = prospects(garage, work.at, cars, plan, first) if cars else {}
    return tuple(
        NextEvent(
            event=entry.event.name,
            url=reverse("event_page", args=[entry.event_id]),
            car=entry.vehicle.name,
            car_url=reverse("vehicle_page", args=[entry.vehicle_id]),
            tape=entry.vehicle.tape,
            leaves=clock_words(entry.event.due_at, work.at),
            outcome=outcomes[entry.pk],
            on_plan=ahead[entry.vehicle_id].on_plan if entry == first[entry.vehicle_id] else None,
        )
        for entry in entries
    )
