"""What is to be said of each entered car, as a tag shows it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.plan.engine.outlook import Outlook
from builds.work.pages import CarCard
from garage.engine.moments import leaving_words
from garage.models import Entry

MOST_CARS = 3  # that are said one by one, as a page opens


def more_cars_words(outlooks: Iterable[Outlook]) -> str:
    """`3 more cars, 2 of them will not make it`: those behind the first few; nothing where there are none."""
    behind = list(outlooks)
    late = sum(outlook.makes_it is False for outlook in behind)
    said = f"{len(behind)} more car{'s' * (len(behind) != 1)}"
    if not late:
        return said if behind else ""
    return f"{said}, {late} of them will not make it" if len(behind) > 1 else f"{said} will not make it"


@dataclass(frozen=True)
class EnteredTag:
    entry: Entry
    outlook: Outlook
    line: str

    @property
    def card(self) -> CarCard:
        car, obstacle = self.entry.vehicle, self.outlook.outcome.obstacle
        return CarCard(
            pk=car.pk,
            url=reverse("vehicle_page", args=[car.pk]),
            name=car.name,
            tape=car.tape,
            line=self.line,
            sentence=self.outlook.sentence,
            reasons=(f"First in its way: {obstacle}",) if obstacle else (),
        )


def entered_cars(
    entries: list[Entry], outlooks: Mapping[int, Outlook], zone: ZoneInfo, at: datetime
) -> tuple[EnteredTag, ...]:
    """Those that will not make it first; `outlooks` by the pk of the entry."""
    order = (False, None, True)
    worst_first = sorted(entries, key=lambda entry: order.index(outlooks[entry.pk].makes_it))
    return tuple(
        EnteredTag(entry, outlooks[entry.pk], leaving_words(entry.event.name, entry.event.due_at, zone, at))
        for entry in worst_first
    )
