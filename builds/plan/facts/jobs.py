"""Open jobs as the planner takes them: what is left of each, who has it in hand, its earliest."""

from typing import Any

from builds.cure.facts.plan_clock import PlanClock, name_of, slots_for
from builds.plan.facts.links import waits_that_run
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.skills import skill_of
from builds.planner.problem import Job
from builds.work.models.job import Job as JobRow
from builds.work.models.states import STARTED_STATES, State
from garage.engine.moments import day_words
from garage.engine.presence import wall_moment


def jobs(rows: PlanRows, clock: PlanClock, slots: int) -> tuple[tuple[Job, ...], dict[str, str]]:
    """The open jobs, and a sentence for each that no plan can place as it is.

    A moment past the last of `slots` counts as that: how far past makes no difference.
    """
    refused = _too_cold(rows, slots) | _refused(rows)
    found = (_job(row, rows, clock, slots, refused) for row in rows.work.jobs.values())
    return tuple(found), refused


def _refused(rows: PlanRows) -> dict[str, str]:
    """Jobs that want more people than there are, which the planner would not take as they are."""
    there = len(rows.members)
    who = {0: "nobody works", 1: "one person works"}.get(there, f"{there} people work")
    return {
        name_of("job", job.pk): (f"It needs {job.hands} at once, and {who} here: add a person, or lower its hands.")
        for job in rows.work.jobs.values()
        if job.hands > there and not _crew(job, rows)
    }


def _too_cold(rows: PlanRows, slots: int) -> dict[str, str]:
    """Jobs for which the shop is at no time of the plan warm and dry enough."""
    return {
        name_of("job", job.pk): (
            "The shop is at no time within the plan as warm or dry as it asks for: heat it, or"
            " lower what the job needs."
        )
        for job in rows.work.jobs.values()
        if job.state != State.IN_HAND and rows.work.times.windows(job, slots) == ()
    }


def _crew(job: JobRow, rows: PlanRows) -> tuple[str, ...]:
    """Who has the job in hand, of those who count as hands."""
    if job.state != State.IN_HAND:
        return ()
    here = {member.pk for member in rows.members}
    return tuple(name_of("person", row.pk) for row in rows.work.crew(job.pk) if row.pk in here)


def _work(job: JobRow, rows: PlanRows) -> int:
    """Slots still to do; an untouched job of no length stays one."""
    if job.state == State.OPEN and job.left_minutes is None:
        return slots_for(job.likely_minutes)
    return slots_for(rows.work.left(job.pk))


def _job(job: JobRow, rows: PlanRows, clock: PlanClock, slots: int, refused: dict[str, str]) -> Job:
    """A job in hand keeps its crew and asks for no skill besides: that they do it is a fact."""
    name, entry = name_of("job", job.pk), rows.entry.get(job.vehicle_id)
    asked: dict[str, Any] = {
        "work": _work(job, rows),
        "hands": job.hands,
        "skill": skill_of(job, rows),
    }
    if crew := _crew(job, rows):
        asked |= {"crew": crew, "hands": len(crew), "skill": None}
    else:  # whatever the weather: what is in hand is in hand
        asked["windows"] = rows.work.times.windows(job, slots)
    if name in refused:  # left in the problem, so that what waits for it has no place either
        asked |= {"work": max(asked["work"], 1), "hands": 0, "skill": None, "windows": ()}
    earliest, waits_for = _earliest(job, rows, clock)
    return Job(
        id=name,
        vehicle=name_of("car", job.vehicle_id),
        rank=job.rank,
        weight=job.weight,
        uses={name_of("station", row.station_id): row.units for row in rows.uses.get(job.pk, ())},
        splits=job.splits,
        earliest=min(earliest, slots),
        waits_for=waits_for or None,
        due=min(clock.last_until(entry.event.due_at), slots) if entry else None,
        title=job.title.strip() or None,
        pinned=_pinned(job, clock, slots),
        started=job.state == State.IN_HAND,
        **asked,
    )


def _earliest(job: JobRow, rows: PlanRows, clock: PlanClock) -> tuple[int, str]:
    """The first slot that dates, parts and running waits allow, and what comes at it, in words."""
    if job.state == State.IN_HAND:
        return 0, ""
    found = [(0, ""), *waits_that_run(job.pk, rows, clock)]
    if job.earliest_at:
        found.append((clock.first_from(job.earliest_at), ""))
    for need in rows.needs.get(job.pk, ()):
        if need.expected_on:
            slot = clock.first_from(wall_moment(need.expected_on, 0, rows.zone))
            found.append((slot, f"the part {need}, expected {day_words(need.expected_on)}"))
    return max(found, key=lambda row: row[0])


def _pinned(job: JobRow, clock: PlanClock, slots: int) -> int | None:
    """The slot of a pinned start that is still ahead of work that has not begun."""
    if job.pinned_at is None or job.state in STARTED_STATES:
        return None
    slot = clock.first_from(job.pinned_at)
    return min(slot, slots) if slot >= 0 else None
