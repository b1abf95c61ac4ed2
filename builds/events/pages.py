"""What an event's page says: when cars are due, and how each entered one stands."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.cars.pages.reasons import ReasonLine, reason_lines
from builds.plan.engine.outlook import Outlook
from builds.plan.engine.stored import Stored
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks_of
from builds.plan.facts.prospects import Prospect, prospects
from builds.scrutineering.pages.entry_ticks import EntryTicks, entry_ticks
from builds.travel.engine import ride_words
from builds.travel.facts import ride_of
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan
from builds.work.facts.runs import unanswered
from builds.work.models.job import Job
from garage.models import Entry, Event


@dataclass(frozen=True)
class EnteredCar:
    """`outlook` and `on_plan` are None once the event is over; `rides` says how it gets there.

    `on_plan` is None too where it says only what the verdict says already.
    """

    entry: Entry
    verdict: Verdict
    reasons: tuple[ReasonLine, ...]
    outlook: Outlook | None
    on_plan: OnPlan | None
    ticks: EntryTicks
    rides: str


@dataclass(frozen=True)
class WithdrawnCar:
    """`asks` while nobody has said whether it ran at what had begun when it was withdrawn."""

    entry: Entry
    asks: bool

    @property
    def words(self) -> str:
        if self.asks:
            return "nobody has said whether it ran"
        return "it did not run" if hasattr(self.entry, "run") else ""


def withdrawn_lines(event: Event, at: datetime) -> tuple[WithdrawnCar, ...]:
    """One query, and one more where the event has begun and any is withdrawn."""
    rows = list(event.entries.exclude(withdrawn_at=None).select_related("vehicle", "run"))
    asked = set(unanswered(event, at).values_list("pk", flat=True)) if rows and event.gates_at <= at else set()
    return tuple(WithdrawnCar(entry, entry.pk in asked) for entry in rows)


def entered_for(event: Event) -> list[Entry]:
    """With what each line of its page tells; one query."""
    rows = Entry.objects.in_garage(event.garage).coming().filter(event=event)
    return list(rows.select_related("vehicle", "event", "tow"))


def jobs_to_do(entries: Iterable[Entry]) -> list[Job]:
    """The open jobs of the cars entered, `with_morning`; one query."""
    return list(Job.objects.filter(vehicle__in=[entry.vehicle_id for entry in entries]).open().with_morning())


def entry_lines(
    event: Event, entries: list[Entry], to_do: list[Job], plan: Stored | None, at: datetime
) -> tuple[EnteredCar, ...]:
    garage, ahead = event.garage, event.ends_at > at
    by_car = {entry.vehicle_id: entry for entry in entries}
    cars = [entry.vehicle for entry in entries]
    standing = prospects(garage, at, cars, plan, by_car if ahead else None, jobs=to_do)
    outlooks = outlooks_of(plan, entries, must_do(to_do), standing, at) if ahead else {}
    ticks = entry_ticks(garage, entries, at)
    return tuple(
        EnteredCar(
            entry,
            standing[entry.vehicle_id].verdict,
            reason_lines(standing[entry.vehicle_id].verdict),
            outlooks.get(entry.pk),
            _adds(standing[entry.vehicle_id]) if ahead else None,
            ticks[entry.pk],
            ride_words(ride_of(entry)),
        )
        for entry in entries
    )


def _adds(standing: Prospect) -> OnPlan | None:
    """How it stands on the day, where the verdict does not say the same already."""
    on_plan, verdict = standing.on_plan, standing.verdict
    if on_plan is None or {reason.sentence for reason in verdict.reasons} != {one.sentence for one in on_plan.reasons}:
        return on_plan
    return None if verdict.reasons or on_plan.state == verdict.state else on_plan
