"""All that the page of today shows, in a fixed number of queries."""

from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.on_plan import prospects
from builds.plan.facts.outcome import CarOutcome, MustDoJob, outcomes_of
from builds.plan.facts.stored import Stored, shown
from builds.shop.pages.cures import CureClock, running_cures
from builds.steps.pages.job_cards import card_of, done_card
from builds.steps.pages.time_log import eyes_words, may_sign
from builds.today.facts.to_sign import jobs_to_sign
from builds.today.pages.changes import Changes, changes_since
from builds.today.pages.today_people import PersonToday, members_of, people_today, unplanned
from builds.verdict.engine.on_plan import OnPlan
from builds.work.facts.work import Work, load_work
from builds.work.models.job import Job
from builds.work.models.states import State
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.models import Entry, Garage, Membership, Vehicle
from garage.models.scoped import EDITORS

MOST_ENTRIES = 8


@dataclass(frozen=True)
class ToSign:
    """A hold point that was reached, or finished safety work; who may sign it.

    `asks` when a value is signed with it, so that one tap is not enough.
    """

    card: JobCard
    url: str
    may_sign: bool
    asks: str = ""


@dataclass(frozen=True)
class NextEvent:
    """A car's next event and what the plan makes of it."""

    event: str
    url: str
    car: str
    car_url: str
    tape: str
    leaves: str
    outcome: CarOutcome
    on_plan: OnPlan | None


@dataclass(frozen=True)
class FirstStep:
    """One thing that an empty garage still lacks."""

    label: str
    why: str
    url: str
    done: bool


@dataclass(frozen=True)
class Today:
    """`first_steps` only while the garage has no job; `unplanned` jobs are newer than the plan."""

    heading: str
    lead: str
    people: tuple[PersonToday, ...]
    to_sign: tuple[ToSign, ...]
    curing: tuple[CureClock, ...]
    held: tuple[JobCard, ...]
    changes: Changes
    entries: tuple[NextEvent, ...]
    first_steps: tuple[FirstStep, ...]
    has_plan: bool
    unplanned: int

    @property
    def there(self) -> list[PersonToday]:
        """Me, whoever is in, and whoever has something in hand."""
        return [each for each in self.people if each.is_me or each.is_in or each.in_hand]

    @property
    def away(self) -> list[PersonToday]:
        there = self.there
        return [each for each in self.people if each not in there]

    @property
    def step_now(self) -> FirstStep | None:
        """The first of the steps that is still to be taken."""
        return next((step for step in self.first_steps if not step.done), None)

    @property
    def has_cars(self) -> bool:
        return bool(self.first_steps and self.first_steps[0].done)


def load_today(me: Membership, at: datetime) -> Today:
    garage, zone = me.garage, ZoneInfo(me.garage.time_zone)
    work, members, plan = load_work(garage, at), members_of(me, at), shown(garage)
    people = people_today(me, members, work, plan)
    yesterday = at.astimezone(zone).date() - timedelta(days=1)
    since = datetime.combine(yesterday, time(), zone)
    entries = list(
        Entry.objects.in_garage(garage).upcoming(at).kept().select_related("event", "vehicle")[:MOST_ENTRIES]
    )
    return Today(
        heading=heading(at.astimezone(zone)),
        lead=_lead(people),
        people=tuple(people),
        to_sign=tuple(_to_sign(me, members, work)),
        curing=tuple(running_cures(work)),
        held=tuple(
            card_of(work.jobs[pk], work, steps=True)
            for pk in work.order
            if work.jobs[pk].state == State.HELD and not _at_hold_point(work.jobs[pk])
        ),
        changes=changes_since(garage, since, work, members),
        entries=tuple(_entries(garage, entries, plan, work)),
        first_steps=tuple(_first_steps(me, members, entries)) if not work.jobs else (),
        has_plan=plan is not None,
        unplanned=len(unplanned(work, plan)),
    )


def heading(local: datetime) -> str:
    part = "morning" if local.hour < 12 else "afternoon" if local.hour < 17 else "evening"
    return f"{local:%A} {part}"


def _lead(people: list[PersonToday]) -> str:
    there = [f"{person.name} {person.tonight}" for person in people if person.is_in]
    return f"{', '.join(there)}." if there else "Nobody is in today."


def _at_hold_point(job: Job) -> bool:
    return job.state == State.HELD and job.finished_at is not None


def _to_sign(me: Membership, members: list[Membership], work: Work) -> list[ToSign]:
    eyes = [member for member in members if member.role in EDITORS]
    found = []
    for pk in work.order:
        job = work.jobs[pk]
        if not _at_hold_point(job):
            continue
        for point in work.unsigned[pk]:
            url = reverse("hold_point_sign", args=[point.pk])
            card = replace(card_of(job, work), title=f"Hold point: {point.what}", note=f"At the end of {job}")
            found.append((card, url, work.workers[pk], point.asks))
    for job, hands in jobs_to_sign(me.garage, work):
        url = reverse("job_sign", args=[job.pk])
        found.append((done_card(job, work.at), url, hands, ""))
    return [
        ToSign(
            replace(card, kicker=f"waits for {eyes_words(eyes, hands)}"),
            url,
            may_sign(me, eyes, hands),
            asks,
        )
        for card, url, hands, asks in found
    ]


def _entries(garage: Garage, entries: list[Entry], plan: Stored | None, work: Work) -> list[NextEvent]:
    standing: dict[int, list[MustDoJob]] = {}
    for pk, job in work.jobs.items():
        if job.rank != Job.Rank.WANTED:
            line = MustDoJob(name_of("job", pk), job.title)
            standing.setdefault(job.vehicle_id, []).append(line)
    found = outcomes_of(plan, entries, standing, work.at)
    nearest = {entry.vehicle_id: entry for entry in reversed(entries)}
    cars = [entry.vehicle for entry in nearest.values()]
    ahead = prospects(garage, work.at, cars, plan, nearest) if cars else {}
    return [
        NextEvent(
            event=entry.event.name,
            url=reverse("event_page", args=[entry.event_id]),
            car=entry.vehicle.name,
            car_url=reverse("vehicle_page", args=[entry.vehicle_id]),
            tape=entry.vehicle.tape,
            leaves=clock_words(entry.event.due_at, work.at),
            outcome=found[entry.pk],
            on_plan=ahead[entry.vehicle_id].on_plan if entry in nearest.values() else None,
        )
        for entry in entries
    ]


def _first_steps(me: Membership, members: list[Membership], entries: list[Entry]) -> list[FirstStep]:
    """A car, an event, hours, then a recipe; one query more while there is no job."""
    garage: Garage = me.garage
    car = Vehicle.objects.in_garage(garage).kept().first()
    hours = any(member.weekly_hours.all() for member in members)
    recipes = reverse("recipe_list") + (f"?car={car.pk}" if car else "")
    return [
        FirstStep("Add a car", "with the colour of its tape", reverse("vehicle_add"), bool(car)),
        FirstStep("Add an event", "and enter the car for it", reverse("event_add"), bool(entries)),
        FirstStep(
            "Say when you are in",
            "the week, evening by evening",
            reverse("hours_edit", args=[me.pk]),
            hours,
        ),
        FirstStep("Put a recipe on the car", "or write a job down", recipes, False),
    ]
