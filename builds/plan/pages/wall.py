"""All that the page of the plan on the wall shows, in a fixed number of queries."""

from dataclasses import dataclass, replace
from datetime import date, datetime

from builds.plan.facts.outcomes import outlooks
from builds.plan.facts.rows import PlanRows, fetch
from builds.plan.facts.stored import shown, shown_to
from builds.plan.facts.wall import wall_of
from builds.plan.models import Plan, Search
from builds.plan.pages.day_list import Day, days, opened
from builds.plan.pages.entered_cars import MOST_CARS, EnteredTag, entered_cars, more_cars_words
from builds.plan.pages.left_out import LeftOut, left_out
from builds.plan.pages.moves import MovedJob, moves
from builds.plan.pages.search import SearchView, search_view
from builds.plan.pages.strip import Strip, plan_strip
from builds.planner.crowds import crowds
from builds.planner.problem import Problem
from builds.planner.words import Names
from builds.travel.facts import told_to, travel_troubles
from garage.engine.words import listed_in_words
from garage.facts.entries import kept_ahead
from garage.models import Garage, Membership

FOLDED = 2  # days that have a line each, behind those that are open


@dataclass(frozen=True)
class PlanList:
    """`asked` (ISO) is the day that somebody wants to see."""

    days: tuple[Day, ...]
    left_out: tuple[LeftOut, ...]
    asked: str = ""

    @property
    def opened(self) -> tuple[Day, ...]:
        """The day that was asked for, else today and tomorrow; where neither has work, the first day that has."""
        asked = tuple(day for day in self.days if day.iso == self.asked)
        return tuple(opened(asked or tuple(day for day in self.days if day.near) or self.days[:1]))

    @property
    def folded(self) -> tuple[Day, ...]:
        return self._others[:FOLDED]

    @property
    def far(self) -> tuple[Day, ...]:
        """Days beyond those that have a line each as the page opens."""
        return self._others[FOLDED:]

    @property
    def _others(self) -> tuple[Day, ...]:
        opened_days = {day.iso for day in self.opened}
        return tuple(day for day in self.days if day.iso not in opened_days)


@dataclass(frozen=True)
class PlanPage:
    """`plan` is None before the first one; `hint` says what a plan lacks to be of use.

    `troubles` are what stands against how the cars get to their events.

    `moves` are from where the work stood when the last session began, at `moved_since`.
    """

    cars: tuple[EnteredTag, ...]
    hint: str
    troubles: tuple[str, ...]
    search: SearchView | None = None
    open_jobs: int = 0
    plan: Plan | None = None
    items: PlanList | None = None
    strip: Strip | None = None
    moves: tuple[MovedJob, ...] = ()
    moved_since: datetime | None = None

    @property
    def by_car(self) -> list[list[EnteredTag]]:
        """Cars in the order of their worst event, each with all of its events."""
        together: dict[int, list[EnteredTag]] = {}
        for car in self.cars:
            together.setdefault(car.entry.vehicle_id, []).append(car)
        return list(together.values())

    @property
    def first_cars(self) -> list[list[EnteredTag]]:
        return self.by_car[:MOST_CARS]

    @property
    def more_cars(self) -> list[list[EnteredTag]]:
        return self.by_car[MOST_CARS:]

    @property
    def more_cars_words(self) -> str:
        return more_cars_words(events[0].outlook for events in self.more_cars)


def load_plan_page(
    garage: Garage, at: datetime, day: date | None = None, reader: Membership | None = None, *, close: bool = False
) -> PlanPage:
    """`day` to draw that day alone on the strip, `close` as of `plan_strip`; a command has no `reader`."""
    rows, plan = fetch(garage, at), shown_to(reader) if reader else shown(garage)
    hint = _hint(rows)
    entries = kept_ahead(garage, at)
    sentences = outlooks(garage, plan, entries, rows.work.jobs.values(), at)
    if plan is not None:
        hint = " ".join([*filter(None, [hint]), *crowd_words(plan.problem)])
    before_any = PlanPage(
        entered_cars(entries, sentences, rows.zone, at),
        hint,
        tuple(trouble.sentence for trouble in told_to(reader, travel_troubles(garage, at))),
        _search(garage, plan.row if plan else None, at),
        len(rows.work.jobs),
    )
    if plan is None:
        return before_any
    wall = wall_of(plan, rows, garage)
    return replace(
        before_any,
        plan=plan.row,
        items=PlanList(days(wall), left_out(wall), day.isoformat() if day else ""),
        strip=plan_strip(wall, entries, day, close=close),
        moves=tuple(moves(plan)) if plan.promised_at else (),
        moved_since=plan.promised_at,
    )


def _search(garage: Garage, wall: Plan | None, at: datetime) -> SearchView | None:
    """The latest search, if it is about the plan on the wall and not about one before it; one query."""
    search = Search.objects.in_garage(garage).select_related("plan").first()
    return search_view(search, at) if search and _concerns(search, wall) else None


def _concerns(search: Search, wall: Plan | None) -> bool:
    return search.ended_at is None or (wall is not None and search.plan == wall)


def crowd_words(problem: Problem) -> list[str]:
    """Stripped cars that are more than there is room for: as they are, whatever the plan would like."""
    names = Names(problem)
    return [
        f"{listed_in_words([names.car(car) for car in crowd.cars])} stand stripped in {names.station[crowd.station]}, "
        f"which has room for {crowd.room}: the plan leaves them there, and no other car comes in until there is room."
        for crowd in crowds(problem)
    ]


def _hint(rows: PlanRows) -> str:
    if not rows.work.jobs:
        return ""
    if not rows.members:
        return "Nobody works here yet, so nothing finds a place: add a person with hours."
    if not any(member.weekly_hours.all() or member.day_hours.all() for member in rows.members):
        return "Nobody has hours yet, so nothing finds a place: say who is in, and when."
    if not rows.entry:
        return "No car is entered for an event ahead, so no job has a date to be ready for."
    return ""
