"""The nights of events in words, with what is done in each and when by the plan."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.ids import id_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.work.models.job import Job
from garage.clock import clock_words
from garage.models import Entry, Event, Garage, Night


@dataclass(frozen=True)
class NightJob:
    """`when` by the plan, or why it has no place; empty where no plan knows it."""

    job: Job
    when: str


@dataclass(frozen=True)
class NightView:
    """`words` such as `Sat 18:00 to 23:00, cars ready by Sun 08:30`; `offers` are jobs that could be done then.

    `over` once its morning has come: what was left of its work is no more among it.
    """

    pk: int
    event: Event
    words: str
    jobs: tuple[NightJob, ...]
    offers: tuple[Job, ...]
    nobody: bool
    over: bool


def night_words(night: Night, at: datetime) -> str:
    begins, ends, due = (clock_words(moment, at) for moment in (night.from_at, night.until_at, night.due_at))
    return f"{begins} to {ends}, cars ready by {due}"


def night_views(garage: Garage, nights: Iterable[Night], plan: TimedPlan | None, at: datetime) -> tuple[NightView, ...]:
    """Of nights with their events; three queries, none where there is no night."""
    asked = list(nights)
    if not asked:
        return ()
    entries = Entry.objects.kept().filter(event__in=[night.event_id for night in asked])
    cars: dict[int, set[int]] = {}
    for entry in entries:
        cars.setdefault(entry.event_id, set()).add(entry.vehicle_id)
    jobs = list(Job.objects.in_garage(garage).open().select_related("vehicle").with_night())
    people = set(Event.people.through.objects.filter(membership__in=_hands(garage)).values_list("event_id", flat=True))
    return tuple(
        _view(night, jobs, cars.get(night.event_id, set()), plan, at, somebody=night.event_id in people)
        for night in asked
    )


def _hands(garage: Garage) -> list[int]:
    return list(garage.memberships.active().working().values_list("pk", flat=True))


def _view(
    night: Night, jobs: list[Job], cars: set[int], plan: TimedPlan | None, at: datetime, *, somebody: bool
) -> NightView:
    over = night.due_at <= at
    return NightView(
        night.pk,
        night.event,
        night_words(night, at),
        tuple(NightJob(job, _when(job, plan, at)) for job in jobs if job.overnight(at) == night),
        () if over else tuple(job for job in jobs if job.vehicle_id in cars and job.overnight(at) is None),
        not somebody,
        over,
    )


def _when(job: Job, plan: TimedPlan | None, at: datetime) -> str:
    name = id_of("job", job.pk)
    if plan is None:
        return ""
    if name in plan.unplaced:
        return f"no place: {plan.unplaced[name].why}"
    placed = plan.placed.get(name)
    if placed is None:
        return ""
    return f"{clock_words(plan.clock.moment(placed.start), at)} to {clock_words(plan.clock.moment(placed.end), at)}"
