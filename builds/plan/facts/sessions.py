"""The sessions in which planned work is done, and the waits that run between."""

from dataclasses import dataclass

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.stored import Stored
from builds.planner.axis import clip, overlap
from builds.planner.plan import Placed


@dataclass(frozen=True)
class Session:
    """One stretch of work on a job, in slots; `part` of `parts`, all by the same people."""

    job: str
    start: int
    end: int
    part: int
    parts: int
    people: tuple[str, ...]


@dataclass(frozen=True)
class PlannedCure:
    """A wait that runs by itself, in slots, after `before` and until `after` may start.

    `start` is below 0 when it runs already; `why` names it. `ready` is past the last slot of the
    plan when it is too cold for it.
    """

    before: str
    after: str
    start: int
    ready: int
    why: str


def sessions(plan: Stored) -> list[Session]:
    """In order of start; work of no length is one session of none."""
    slots = plan.problem.slots
    people = {row.id: clip(row.windows, slots) for row in plan.problem.people}
    stations = {row.id: row.windows for row in plan.problem.stations}
    found = []
    for row in plan.placed.values():
        job = plan.jobs[row.id]
        spans = clip(job.windows, slots)
        for windows in (
            *(people[name] for name in row.people),
            *(clip(stations[name], slots) for name in job.uses if stations[name] is not None),
        ):
            spans = overlap(spans, windows)
        found += _parts(row, overlap(spans, ((row.start, row.end),)) or ((row.start, row.end),))
    return sorted(found, key=lambda session: (session.start, session.end))


def _parts(row: Placed, spans: tuple[tuple[int, int], ...]) -> list[Session]:
    return [Session(row.id, start, end, part, len(spans), row.people) for part, (start, end) in enumerate(spans, 1)]


def cures(plan: Stored, rows: PlanRows) -> list[PlannedCure]:
    """Waits between planned work, and those behind finished work; each once, in order of start."""
    found: dict[tuple[str, int], PlannedCure] = {}
    for link in plan.problem.links:
        before, after = plan.placed.get(link.before), plan.jobs.get(link.after)
        if before and after and (ready := link.opens(before.end)) > before.end:
            cure = PlannedCure(link.before, link.after, before.end, ready, link.why or "wait")
            found.setdefault((link.before, ready), cure)
    for pk in rows.work.jobs:
        for joint in rows.work.waits.get(pk, ()):
            done = rows.work.before[joint.before]
            moment = rows.work.times.ready_at(joint, done)
            if joint.before not in rows.work.jobs and moment and moment > rows.at:
                start = plan.clock.last_until(done.finished_at)
                ready = min(plan.clock.first_from(moment), plan.problem.slots + 1)
                before = name_of("job", done.pk)
                cure = PlannedCure(before, name_of("job", pk), start, ready, joint.why or "wait")
                found[before, ready] = cure
    return sorted(found.values(), key=lambda cure: (cure.start, cure.ready))


def ready_words(plan: Stored, cure: PlannedCure) -> str:
    """When a cure is over, as `Wed 06:30`."""
    beyond = cure.ready > plan.problem.slots
    return "when it is warmer" if beyond else plan.clock.words(cure.ready)
