"""Work done overnight at an event, for the planner: its place and hours, and the hands that are there.

Who is at the event is not at home, and the other way round: so that a plan never mixes them, hands in the
paddock are units of a station which is open in the hours of the night, not people of the garage.
"""

from collections.abc import Iterator
from dataclasses import replace

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine import why
from builds.plan.engine.ids import id_of, skilled_id
from builds.plan.facts.rows import PlanRows
from builds.planner.fields import Windows
from builds.planner.problem import Job, Station
from builds.work.models.job import Job as JobRow
from builds.work.models.states import State
from garage.models import Membership, Night


def night_of(job: JobRow, rows: PlanRows) -> Night | None:
    """The night in which a job is done, while its morning has still to come."""
    return rows.nights.get(job.night_id) if job.night_id else None


def overnight(job: Job, row: JobRow, night: Night, clock: PlanClock, slots: int) -> Job:
    """The job as it is done in the paddock: by whoever is there, in its hours, due in the morning."""
    asked = {_paddock_id(night): row.hands}
    if row.skill and row.hands:
        asked[_able(night, row.skill.name)] = 1
    begins, ends = _hours(night, clock, slots)
    return replace(
        job,
        hands=0,
        skill=None,
        crew=None,
        uses={station: units for station, units in asked.items() if units},
        windows=_open(0 if job.started else begins, ends),
        due=max(0, min(clock.last_until(night.due_at), slots)),
    )


def stations(rows: PlanRows, clock: PlanClock, slots: int) -> Iterator[Station]:
    """The paddock in each night in which something is to be done, with as much room as there are hands."""
    for night in rows.nights.values():
        jobs = [job for job in rows.work.jobs.values() if job.night_id == night.pk]
        if not jobs:
            continue
        there, hours = goers(night, rows), _open(*_hours(night, clock, slots))
        yield Station(_paddock_id(night), len(there), None if _goes_on(jobs) else hours, str(night), stands=True)
        for skill in sorted({job.skill.name for job in jobs if job.skill}):
            able = sum(_knows(member, skill) for member in there)
            yield Station(_able(night, skill), able, None, why.hands_that_know(skill, night.event.name))


def refused(rows: PlanRows) -> dict[str, str]:
    """Jobs (ids) that nobody who is there can do, each with its sentence."""
    refusals = {}
    for job in rows.work.jobs.values():
        night = night_of(job, rows)
        if night is None:
            continue
        there = [member for member in goers(night, rows) if job.vehicle_id not in rows.not_on(member)]
        event = night.event.name
        if job.hands > len(there):
            refusals[id_of("job", job.pk)] = why.too_few_there(job.hands, len(there), event)
        elif job.skill and job.hands and not any(_knows(member, job.skill.name) for member in there):
            refusals[id_of("job", job.pk)] = why.nobody_there_can(job.skill.name, event)
    return refusals


def goers(night: Night, rows: PlanRows) -> list[Membership]:
    """Who counts as hands and is at the event; no query."""
    return [member for member in rows.members if any(event.pk == night.event_id for event in member.events.all())]


def _knows(member: Membership, name: str) -> bool:
    return any(skill.name == name for skill in member.skills.all())


def _goes_on(jobs: list[JobRow]) -> bool:
    """Whether somebody has begun already, whatever the hours say."""
    return any(job.state == State.IN_HAND for job in jobs)


def _open(begins: int, ends: int) -> Windows:
    """No hours where the night's are over, though its morning is not, shorter than a slot, or past the plan."""
    return ((begins, ends),) if begins < ends else ()


def _hours(night: Night, clock: PlanClock, slots: int) -> tuple[int, int]:
    begins, ends = clock.first_from(night.from_at), clock.last_until(night.until_at)
    return max(0, min(begins, slots)), max(0, min(ends, slots))


def _paddock_id(night: Night) -> str:
    return id_of("night", night.pk)


def _able(night: Night, skill: str) -> str:
    return skilled_id(_paddock_id(night), skill)
