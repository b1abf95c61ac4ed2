"""The sessions in which planned work is done, and the waits that run between."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.timed_plan import TimedPlan
from builds.planner.axis import clip, overlap
from builds.work.engine.blocks import NOT_IN_SIGHT, WARMER

BEYOND = "after the plan ends"


@dataclass(frozen=True)
class Session:
    """One stretch of work on a job (its id), in slots; `part` of `parts`, all by the same people."""

    job: str
    start: int
    end: int
    part: int
    parts: int
    people: tuple[str, ...]


@dataclass(frozen=True)
class PlannedCure:
    """A wait that runs by itself after `before` and until `after` (ids) may start; `why` names it.

    `start` and `ready` are its slots: the one below 0 when it runs already, the other past the last slot of
    the plan where it is not over by then. `since` and `until` are the moments themselves: `until` is
    NOT_IN_SIGHT when it is too cold, None for a cure of which is only known that the plan ends before.
    """

    before: str
    after: str
    start: int
    ready: int
    why: str
    since: datetime
    until: datetime | None


def sessions(plan: TimedPlan) -> list[Session]:
    """In order of start; work of no length is one session of none."""
    slots = plan.problem.slots
    people = {person.id: clip(person.windows, slots) for person in plan.problem.people}
    stations = {station.id: station.windows for station in plan.problem.stations}
    worked: list[Session] = []
    for placed in plan.placed.values():
        job, whole = plan.jobs[placed.id], ((placed.start, placed.end),)
        hours = [people[person] for person in placed.people]
        hours += [clip(stations[station], slots) for station in job.uses if stations[station] is not None]
        spans = clip(job.windows, slots)
        for windows in (*hours, whole):
            spans = overlap(spans, windows)
        spans = spans or whole
        worked += [
            Session(placed.id, start, end, part, len(spans), placed.people)
            for part, (start, end) in enumerate(spans, 1)
        ]
    return sorted(worked, key=lambda session: (session.start, session.end))


def cures_between(plan: TimedPlan) -> list[PlannedCure]:
    """Waits between planned jobs, by link."""
    cures, moment = [], plan.clock.moment
    for link in plan.problem.links:
        before, after = plan.placed.get(link.before), plan.jobs.get(link.after)
        if before and after and (ready := link.opens(before.end)) > before.end:
            until = None if link.ready and ready > plan.problem.slots else moment(ready)
            span = (before.end, ready, link.why or "wait", moment(before.end), until)
            cures.append(PlannedCure(link.before, link.after, *span))
    return cures


def when_ready(plan: TimedPlan, cure: PlannedCure) -> str:
    """When a cure is over, as `Wed 06:30`."""
    if cure.until is None:
        return BEYOND
    return WARMER if cure.until == NOT_IN_SIGHT else plan.clock.said(cure.until)
