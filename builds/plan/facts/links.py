"""Order between jobs for the planner: links, and stations that stripped cars keep."""

from builds.cure.engine.plan_clock import slots_for
from builds.plan.engine.ids import fact_id, id_of
from builds.plan.facts.rows import PlanRows
from builds.planner.problem import Hold, Job, Link
from builds.work.engine.cure_times import CureTimes
from builds.work.engine.working_order import Wait


def links(rows: PlanRows, slots: int) -> tuple[Link, ...]:
    """Links between open jobs; dropped work between two of them has passed its order on."""
    return tuple(_link(wait, rows.work.times, slots) for wait in rows.work.links if wait.before in rows.work.jobs)


def _link(wait: Wait, times: CureTimes, slots: int) -> Link:
    ready = times.table(wait, slots)
    return Link(
        before=id_of("job", wait.before),
        after=id_of("job", wait.after),
        wait=slots_for(wait.wait) if ready is None else 0,
        ready=ready,
        why=wait.why.strip() or None,
    )


def holds(rows: PlanRows) -> tuple[tuple[Hold, ...], tuple[Job, ...]]:
    """Holds of stations by stripped cars, and the facts with which those that run already start.

    A fact is work of no length at slot 0: it stands for the job that began the hold.
    """
    held, facts = [], []
    for hold in rows.holds:
        first, last = hold.first, rows.work.jobs.get(hold.last_id)
        if first.night_id in rows.nights or (last and last.night_id in rows.nights):
            continue  # what is stripped overnight at an event stands there and in no station here
        car, start = id_of("car", first.vehicle_id), id_of("job", first.pk)
        if hold.begun:
            start = fact_id(hold.pk)
            facts.append(_fact(start, car, first.title.strip() or None))
        elif first.pk not in rows.work.jobs:
            continue
        station, until = id_of("station", hold.station_id), id_of("job", hold.last_id)
        held.append(Hold(vehicle=car, station=station, start=start, until=until))
    return tuple(held), tuple(facts)


def _fact(fact: str, car: str, title: str | None) -> Job:
    return Job(id=fact, vehicle=car, rank="wanted", work=0, hands=0, weight=0, title=title, pinned=0)
