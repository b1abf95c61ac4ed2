"""What an event's page says: when cars are due, and how each entered one stands."""

from dataclasses import dataclass
from datetime import datetime

from builds.cars.pages.vehicle_page import ReasonLine, reason_lines
from builds.plan.facts.on_plan import prospects
from builds.plan.facts.outcome import CarOutcome, outcomes_of, standing
from builds.plan.facts.stored import shown
from builds.scrutineering.pages.entry_ticks import EntryTicks, entry_ticks
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan
from garage.models import Entry, Event


@dataclass(frozen=True)
class EnteredCar:
    entry: Entry
    verdict: Verdict
    reasons: tuple[ReasonLine, ...]
    outcome: CarOutcome | None
    on_plan: OnPlan | None
    ticks: EntryTicks

    @property
    def said(self) -> str:
        """What the plan means for it; empty once the event is over."""
        names = self.entry.vehicle.name, self.entry.event.name
        return self.outcome.of(*names) if self.outcome else ""


def entry_lines(event: Event, at: datetime) -> tuple[EnteredCar, ...]:
    rows = list(Entry.objects.in_garage(event.garage_id).filter(event=event).select_related("vehicle", "event"))
    entered = {entry.vehicle_id: entry for entry in rows} if event.ends_at > at else None
    plan, cars = shown(event.garage), [entry.vehicle for entry in rows]
    found = prospects(event.garage, at, cars, plan, entered)
    planned = outcomes_of(plan, rows, standing(event.garage), at) if entered else {}
    ticked = entry_ticks(event.garage, rows, at)
    return tuple(
        EnteredCar(
            entry,
            found[entry.vehicle_id].verdict,
            reason_lines(found[entry.vehicle_id].verdict),
            planned.get(entry.pk),
            found[entry.vehicle_id].on_plan if event.ends_at > at else None,
            ticked[entry.pk],
        )
        for entry in rows
    )
