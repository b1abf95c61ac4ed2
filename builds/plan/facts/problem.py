"""A garage as the planner's problem: open jobs, hours, events, and what is already a fact."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta

from builds.cure.engine.plan_clock import SLOT_MINUTES, PlanClock
from builds.plan.engine.basis import Basis
from builds.plan.engine.ids import id_of
from builds.plan.engine.one_go import in_one_go
from builds.plan.engine.sessions_ahead import sessions_ahead
from builds.plan.facts import apart, corners, nights
from builds.plan.facts import jobs as plan_jobs
from builds.plan.facts import links as plan_links
from builds.plan.facts.basis import basis_of
from builds.plan.facts.rows import PlanRows, fetch
from builds.planner.axis import clip
from builds.planner.problem import Person, Problem, Promise, Station, Vehicle
from garage.engine.presence import Window, windows_between
from garage.facts.presence import HORIZON, week_of, working_hours_of
from garage.models import Garage
from garage.models import Station as StationRow

SESSIONS_AHEAD = timedelta(weeks=3)
LEAST_HORIZON = timedelta(weeks=4)
AFTER_THE_LAST = timedelta(weeks=1)
NO_EVENT_WEIGHT = 0.1


def build_problem(garage: Garage, at: datetime, before: tuple[Promise, ...] = ()) -> tuple[Problem, Basis]:
    """The problem at a moment, and what it was made from; slot 0 begins no sooner than `at`.

    `before` are the promises of the plan on the wall. Raises ProblemError with one sentence
    when the rows do not hang together.
    """
    return problem_of(fetch(garage, at), before)


def problem_of(rows: PlanRows, before: tuple[Promise, ...] = ()) -> tuple[Problem, Basis]:
    clock = PlanClock.from_moment(rows.at, rows.zone)
    slots = clock.last_until(_horizon(rows))
    people, stations = tuple(_people(rows, clock, slots)), tuple(_stations(rows, clock, slots))
    hours = {person.id: clip(person.windows, slots) for person in people}
    jobs, refused = plan_jobs.jobs(rows, clock, slots, hours)
    held, facts = plan_links.holds(rows)
    known = {job.id for job in jobs}
    whole = plan_jobs.in_one_go(rows)
    problem = Problem(
        slots=slots,
        start=clock.start.isoformat(),
        slot_minutes=SLOT_MINUTES,
        vehicles=_vehicles(rows),
        people=people,
        stations=(*stations, *nights.stations(rows, clock, slots), *apart.stations(rows), *corners.stations(rows)),
        jobs=(*(in_one_go(job, people, stations, slots) if job.id in whole else job for job in jobs), *facts),
        links=(*plan_links.links(rows, slots), *apart.links(rows)),
        holds=held,
        before=tuple(promise for promise in before if promise.job in known),
    )
    ahead = sessions_ahead(_presence(rows), rows.at, rows.zone)
    basis = replace(
        basis_of(rows),
        refused=refused,
        sessions=[begins.isoformat() for begins in ahead],
        opens=plan_jobs.opens(rows, clock),
        if_ordered=plan_jobs.if_ordered(rows, clock),
    )
    return problem, basis


def _presence(rows: PlanRows) -> list[Window]:
    """When anybody is in, in the weeks ahead; a night that goes on from yesterday is one window."""
    since, until = rows.at - timedelta(days=1), rows.at + SESSIONS_AHEAD
    return [
        window for member in rows.members for window in working_hours_of(member, rows.hosts, rows.zone, since, until)
    ]


def _horizon(rows: PlanRows) -> datetime:
    """A week past the last moment that matters; at least four weeks, at most half a year."""
    moments = [entry.event.due_at for entry in (*rows.entry.values(), *rows.takes.values())]
    moments += [night.due_at for night in rows.nights.values()]
    for job in rows.work.jobs.values():
        moments += [moment for moment in (job.earliest_at, job.pinned_at) if moment]
    last = max(moments, default=rows.at) + AFTER_THE_LAST
    return min(max(last, rows.at + LEAST_HORIZON), rows.at + HORIZON)


def _vehicles(rows: PlanRows) -> tuple[Vehicle, ...]:
    cars = {job.vehicle_id: job.vehicle for job in rows.work.jobs.values()}
    cars |= {car: entry.vehicle for car, entry in rows.entry.items()}
    weights = [(car, entry.weight) for entries in (rows.entry, rows.takes) for car, entry in entries.items()]
    weight = {car: max(own for other, own in weights if other == car) for car, _ in weights}
    return tuple(
        Vehicle(
            id=id_of("car", car),
            weight=weight.get(car, NO_EVENT_WEIGHT),
            name=vehicle.name.strip() or None,
        )
        for car, vehicle in sorted(cars.items())
    )


def _people(rows: PlanRows, clock: PlanClock, slots: int) -> Iterable[Person]:
    span = clock.zone, clock.start, clock.moment(slots)
    for member in rows.members:
        yield Person(
            id=id_of("person", member.pk),
            skills=rows.skills_of(member),
            windows=_whole_slots(working_hours_of(member, rows.hosts, *span), clock),
            name=member.name.strip() or None,
            not_on=tuple(id_of("car", car) for car in sorted(rows.not_on(member))),
        )


def _stations(rows: PlanRows, clock: PlanClock, slots: int) -> Iterable[Station]:
    for station in rows.stations:
        yield Station(
            id=id_of("station", station.pk),
            capacity=station.capacity,
            windows=None if station.always_open else _opening_hours(station, clock, slots),
            name=station.name.strip() or None,
            stands=station.stands,
        )


def _opening_hours(station: StationRow, clock: PlanClock, slots: int) -> tuple[tuple[int, int], ...]:
    week = week_of(station.weekly_hours.all())
    return _whole_slots(windows_between(week, {}, clock.zone, clock.start, clock.moment(slots)), clock)


def _whole_slots(windows: Iterable[Window], clock: PlanClock) -> tuple[tuple[int, int], ...]:
    whole = ((clock.first_from(start), clock.last_until(end)) for start, end in windows)
    return tuple((start, end) for start, end in whole if start < end)
