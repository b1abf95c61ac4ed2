"""What the plan means for each entered car, as a tag shows it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.plan.engine.outcome import CarOutcome
from builds.work.pages import CarCard
from garage.engine.moments import leaving_words
from garage.models import Entry


@dataclass(frozen=True)
class EntryOutcome:
    entry: Entry
    outcome: CarOutcome
    line: str

    @property
    def card(self) -> CarCard:
        car = self.entry.vehicle
        verb = {True: "Will make it", False: "Will not make it", None: "May make it"}
        obstacle = self.outcome.obstacle
        return CarCard(
            pk=car.pk,
            url=reverse("vehicle_page", args=[car.pk]),
            name=car.name,
            tape=car.tape,
            line=self.line,
            sentence=f"{verb[self.outcome.makes_it]}: {self.outcome.sentence}",
            reasons=(f"First in its way: {obstacle}",) if obstacle else (),
        )


def entered_cars(
    entries: list[Entry], outcomes: Mapping[int, CarOutcome], zone: ZoneInfo, at: datetime
) -> tuple[EntryOutcome, ...]:
    """Those that will not make it first; `outcomes` by the pk of the entry."""
    order = (False, None, True)
    worst_first = sorted(entries, key=lambda entry: order.index(outcomes[entry.pk].makes_it))
    return tuple(
        EntryOutcome(entry, outcomes[entry.pk], leaving_words(entry.event.name, entry.event.due_at, zone, at))
        for entry in worst_first
    )
