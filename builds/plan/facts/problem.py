"""A garage as the planner's problem: open jobs, hours, events, and what is already a fact."""

from dataclasses import replace
from datetime import datetime, timedelta

from builds.cure.facts.plan_clock import SLOT_MINUTES, PlanClock, name_of
from builds.plan.facts import jobs as plan_jobs
from builds.plan.facts import links as plan_links
from builds.plan.facts.basis import Basis, basis_of
from builds.plan.facts.rows import LATEST_HORIZON, PlanRows, fetch
from builds.plan.facts.skills import skills_of
from builds.planner.problem import Person, Problem, Promise, Station, Vehicle
from garage.engine.presence import Window, windows_between
from garage.facts.presence import rules_of, week_of
from garage.models import Garage

LEAST_HORIZON = timedelta(weeks=4)
AFTER_THE_LAST = timedelta(weeks=1)
NO_EVENT_WEIGHT = 0.1


def build_problem(garage: Garage, at: datetime, before: tuple[Promise, ...] = ()) -> tuple[Problem, Basis]:
    """The problem at a moment, and what it was made from; slot 0 begins no sooner than `at`.

    `before` are the promises of the plan on the wall. Raises ProblemError with one sentence
    when the rows do not hang together.
    """
    rows = fetch(garage, at)
    return problem_of(rows, before)


def problem_of(rows: PlanRows, before: tuple[Promise, ...] = ()) -> tuple[Problem, Basis]:
    clock = PlanClock.from_moment(rows.at, rows.zone)
    slots = clock.last_until(_horizon(rows))
    jobs, refused = plan_jobs.jobs(rows, clock, slots)
    held, facts = plan_links.holds(rows)
    known = {job.id for job in jobs}
    problem = Problem(
        slots=slots,
        start=clock.start.isoformat(),
        slot_minutes=SLOT_MINUTES,
        vehicles=_vehicles(rows),
        people=tuple(_people(rows, clock, slots)),
        stations=tuple(_stations(rows, clock, slots)),
        jobs=(*jobs, *facts),
        links=plan_links.links(rows, slots),
        holds=held,
        before=tuple(promise for promise in before if promise.job in known),
    )
    return problem, replace(basis_of(rows), refused=refused)


def _horizon(rows: PlanRows) -> datetime:
    """A week past the last moment that matters; at least four weeks, at most half a year."""
    moments = [entry.event.due_at for entry in rows.entry.values()]
    for job in rows.work.jobs.values():
        moments += [moment for moment in (job.earliest_at, job.pinned_at) if moment]
    last = max(moments, default=rows.at) + AFTER_THE_LAST
    return min(max(last, rows.at + LEAST_HORIZON), rows.at + LATEST_HORIZON)


def _vehicles(rows: PlanRows) -> tuple[Vehicle, ...]:
    cars = {job.vehicle_id: job.vehicle for job in rows.work.jobs.values()}
    cars |= {car: entry.vehicle for car, entry in rows.entry.items()}
    return tuple(
        Vehicle(
            id=name_of("car", car),
            weight=rows.entry[car].weight if car in rows.entry else NO_EVENT_WEIGHT,
            name=vehicle.name.strip() or None,
        )
        for car, vehicle in sorted(cars.items())
    )


def _people(rows: PlanRows, clock: PlanClock, slots: int) -> list[Person]:
    return [
        Person(
            id=name_of("person", member.pk),
            skills=skills_of(member, rows),
            windows=_hours(
                windows_between(
                    week_of(member.weekly_hours.all()),
                    rules_of(member.day_hours.all()),
                    rows.zone,
                    clock.start,
                    clock.moment(slots),
                ),
                clock,
            ),
            name=member.name.strip() or None,
        )
        for member in rows.members
    ]


def _stations(rows: PlanRows, clock: PlanClock, slots: int) -> list[Station]:
    return [
        Station(
            id=name_of("station", station.pk),
            capacity=station.capacity,
            windows=None
            if station.always_open
            else _hours(
                windows_between(
                    week_of(station.weekly_hours.all()),
                    {},
                    rows.zone,
                    clock.start,
                    clock.moment(slots),
                ),
                clock,
            ),
            name=station.name.strip() or None,
        )
        for station in rows.stations
    ]


def _hours(windows: list[Window], clock: PlanClock) -> tuple[tuple[int, int], ...]:
    """Whole slots within the windows."""
    found = ((clock.first_from(start), clock.last_until(end)) for start, end in windows)
    return tuple((start, end) for start, end in found if start < end)
