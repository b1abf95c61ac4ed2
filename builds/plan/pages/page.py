"""All that the plan page shows, in a fixed number of queries."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from django.urls import reverse

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.basis import basis_of
from builds.plan.facts.changes import PlanChanges, changes_since
from builds.plan.facts.outcome import CarOutcome, MustDoJob, outcomes_of
from builds.plan.facts.rows import PlanRows, fetch
from builds.plan.facts.stored import Stored, shown
from builds.plan.models import Plan, Search
from builds.plan.pages.key_board import event_line
from builds.plan.pages.list import PlanList, jobs_of_plan, plan_list
from builds.plan.pages.moves import MovedJob, moves
from builds.plan.pages.search import SearchView, latest, search_view
from builds.plan.pages.strip import Strip, plan_strip
from builds.work.models.job import Job
from builds.work.models.states import State
from builds.work.pages import CarCard
from garage.models import Entry, Garage

LATE_START = timedelta(minutes=30)


@dataclass(frozen=True)
class CarOutcome:
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


@dataclass(frozen=True)
class PlanPage:
    """`plan` is None before the first one; `hint` says what a plan lacks to be of use."""

    cars: tuple[CarOutcome, ...]
    hint: str
    plan: Plan | None = None
    changes: PlanChanges = field(default_factory=PlanChanges)
    behind: tuple[Job, ...] = ()
    items: PlanList | None = None
    strip: Strip | None = None
    moves: tuple[MovedJob, ...] = ()
    search: SearchView | None = None
    open_jobs: int = 0


def load_plan_page(garage: Garage, at: datetime) -> PlanPage:
    rows, plan, search = fetch(garage, at), shown(garage), latest(garage)
    entries = list(
        Entry.objects.in_garage(garage).upcoming(at).filter(vehicle__gone_at=None).select_related("event", "vehicle")
    )
    found = outcomes_of(plan, entries, _standing(rows), at)
    cars = tuple(
        CarOutcome(entry, found[entry.pk], event_line(entry.event, rows.zone, at))
        for entry in sorted(entries, key=lambda entry: _worst_first(found[entry.pk]))
    )
    view = search_view(search, at) if search and _concerns(search, plan) else None
    if plan is None or plan.row is None:
        return PlanPage(cars, _hint(rows), search=view, open_jobs=len(rows.work.jobs))
    jobs = jobs_of_plan(plan, rows, garage)
    return PlanPage(
        cars,
        _hint(rows),
        plan.row,
        changes_since(plan.row.made_from, basis_of(rows), at),
        _behind(plan, rows),
        plan_list(plan, rows, jobs),
        plan_strip(plan, rows, jobs, entries),
        tuple(moves(plan)),
        view,
        len(rows.work.jobs),
    )


def _worst_first(outcome: CarOutcome) -> int:
    return (False, None, True).index(outcome.makes_it)


def _concerns(search: Search, plan: Stored | None) -> bool:
    """Whether a search is about the plan on the wall, and not about one before it."""
    wall, found = plan.row if plan else None, search.plan
    if search.ended_at is None or wall is None or found is None:
        return search.ended_at is None
    return found == wall or (found.use == Plan.Use.TRIED and found.made_at > wall.made_at)


def _standing(rows: PlanRows) -> dict[int, list[MustDoJob]]:
    found: dict[int, list[MustDoJob]] = {}
    for job in rows.work.jobs.values():
        if job.rank != Job.Rank.WANTED:
            row = MustDoJob(name_of("job", job.pk), job.title)
            found.setdefault(job.vehicle_id, []).append(row)
    return found


def _hint(rows: PlanRows) -> str:
    if not rows.work.jobs:
        return ""
    if not rows.members:
        return "Nobody works here yet, so nothing finds a place: add a person with hours."
    if not any(row.weekly_hours.all() or row.day_hours.all() for row in rows.members):
        return "Nobody has hours yet, so nothing finds a place: say who is in, and when."
    if not rows.entry:
        return "No car is entered for an event ahead, so no job has a date to be ready for."
    return ""


def _behind(plan: Stored, rows: PlanRows) -> tuple[Job, ...]:
    """Work that by this plan should have begun a good while ago, and has not."""
    return tuple(
        job
        for name, row in plan.placed.items()
        if plan.clock.moment(row.start) + LATE_START < rows.at
        and (job := rows.work.jobs.get(int(name.removeprefix("job-"))))
        and job.state == State.OPEN
    )
