"""Order between jobs for the planner: links, waits that run already, and stripped cars."""

from collections.abc import Iterable

from builds.cure.facts.plan_clock import PlanClock, name_of, slots_for
from builds.plan.facts.rows import PlanRows
from builds.planner.problem import Hold, Job, Link
from builds.work.engine.working_order import Wait
from builds.work.facts.cure_times import NOT_IN_SIGHT, CureTimes
from builds.work.models.states import OPEN_STATES, STARTED_STATES, State


def links(rows: PlanRows, slots: int) -> tuple[Link, ...]:
    """Links between open jobs; dropped work between two of them has passed its order on."""
    return tuple(_link(joint, rows.work.times, slots) for joint in rows.work.links if joint.before in rows.work.jobs)


def _link(joint: Wait, times: CureTimes, slots: int) -> Link:
    ready = times.table(joint, slots)
    return Link(
        before=name_of("job", joint.before),
        after=name_of("job", joint.after),
        wait=slots_for(joint.wait) if ready is None else 0,
        ready=ready,
        why=joint.why.strip() or None,
    )


def waits_that_run(job: int, rows: PlanRows, clock: PlanClock) -> Iterable[tuple[int, str]]:
    """Slots at which the waits that finished jobs began let this one start, with their words."""
    work = rows.work
    for joint in work.waits.get(job, ()):
        before = work.before[joint.before]
        if joint.before not in work.jobs and (ready := work.times.ready_at(joint, before)):
            when = "when it is warmer" if ready == NOT_IN_SIGHT else clock.said(ready)
            why = f": {joint.why}" if joint.why else ""
            yield clock.first_from(ready), f"{before}{why}, ready {when}"


def holds(rows: PlanRows) -> tuple[tuple[Hold, ...], tuple[Job, ...]]:
    """Holds of stations by stripped cars, and the facts with which those that run already start.

    A fact is work of no length at slot 0: it stands for the job that began the hold.
    """
    held, facts = [], []
    for row in rows.holds:
        first = row.first
        if first.state == State.DROPPED:
            continue
        car, start = name_of("car", first.vehicle_id), name_of("job", first.pk)
        if first.state in STARTED_STATES or first.state not in OPEN_STATES:
            start = name_of("fact", row.pk)
            facts.append(_fact(start, car, first.title.strip() or None))
        elif first.pk not in rows.work.jobs:
            continue
        station, until = name_of("station", row.station_id), name_of("job", row.last_id)
        held.append(Hold(vehicle=car, station=station, start=start, until=until))
    return tuple(held), tuple(facts)


def _fact(name: str, car: str, title: str | None) -> Job:
    return Job(id=name, vehicle=car, rank="wanted", work=0, hands=0, weight=0, title=title, pinned=0)
