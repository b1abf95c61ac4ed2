"""What must hold between the parts of a problem; each breach is refused in one sentence."""

from __future__ import annotations

from collections.abc import Iterable
from operator import gt
from typing import TYPE_CHECKING

from builds.planner.fields import BOUND, ProblemError, shown
from builds.work.engine.urgency import find_cycle

if TYPE_CHECKING:
    from builds.planner.problem import Hold, Job, Link, Problem


KINDS = {
    "job": "jobs",
    "person": "people",
    "station": "stations",
    "vehicle": "vehicles",
}


def ready_table(link: Link, pair: str) -> None:
    """Refuse a table of ready times that falls, beats its own wait or holds no whole numbers."""
    table = link.ready or ()
    if any(type(slot) is not int for slot in table):
        raise ProblemError(f"{pair}: its ready times must be whole numbers.")
    if any(map(gt, table, table[1:])):
        raise ProblemError(f"{pair}: its ready times must not fall.")
    if any(slot < end + link.wait or slot > 2 * BOUND for end, slot in enumerate(table)):
        raise ProblemError(f"{pair}: a ready time must not come before the end plus the wait.")


def hang_together(problem: Problem) -> None:
    """Refuse ids used twice, names that lead nowhere and links that run in a circle."""
    jobs = {job.id: job for job in problem.jobs}
    for kind, key in KINDS.items():
        twice = _first_repeated(part.id for part in getattr(problem, key))
        if twice is not None:
            raise ProblemError(f"Two {kind} entries have the id {shown(twice)}.")
    names = {kind: {part.id for part in getattr(problem, kind)} for kind in KINDS.values()}
    for job in problem.jobs:
        _job(job, names)
    for link in problem.links:
        _link(link, jobs, problem)
    for hold in problem.holds:
        _hold(hold, jobs, problem)
    _cleared(problem)
    twice = _first_repeated(promise.job for promise in problem.before)
    if twice is not None:
        raise ProblemError(f"The plan before has job {shown(twice)} twice.")
    circle = find_cycle((link.before, link.after) for link in problem.links)
    if circle:
        path = " -> ".join(jobs[name].label for name in (circle[0], *reversed(circle)))
        raise ProblemError(f"These jobs wait for each other in a circle: {path}.")


def _first_repeated(names: Iterable[str]) -> str | None:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            return name
        seen.add(name)
    return None


def _job(job: Job, names: dict[str, set[str]]) -> None:
    cars = names["vehicles"]
    if job.vehicle is not None and cars and job.vehicle not in cars:
        raise ProblemError(f"Job {job.label} is on vehicle {shown(job.vehicle)}, which is unknown.")
    for name in job.uses:
        if name not in names["stations"]:
            raise ProblemError(f"Job {job.label} uses station {shown(name)}, which is unknown.")
    for name in job.crew or ():
        if name not in names["people"]:
            raise ProblemError(f"Job {job.label} has {shown(name)} in its crew, who is unknown.")
    for name in job.eyes:
        if name not in names["people"]:
            raise ProblemError(f"Job {job.label} is looked at by {shown(name)}, who is unknown.")
    if job.crew is not None and len(job.crew) != job.hands:
        raise ProblemError(f"Job {job.label} wants {job.hands} people at once, and its crew has {len(job.crew)}.")


def _cleared(problem: Problem) -> None:
    """Where something has to clear, no car is held unless it stands there."""
    held = {hold.station for hold in problem.holds} - {station.id for station in problem.stations if station.stands}
    for job in problem.jobs:
        if job.clears and not held.isdisjoint(job.uses):
            raise ProblemError(f"Job {job.label} has to clear where a car is held.")


def _link(link: Link, jobs: dict[str, Job], problem: Problem) -> None:
    for name in (link.before, link.after):
        if name not in jobs:
            raise ProblemError(
                f"Link {shown(link.before)} -> {shown(link.after)} leads to job {shown(name)}, which is unknown."
            )
    if link.before == link.after:
        raise ProblemError(f"Job {jobs[link.before].label} is linked to itself.")
    if link.ready is not None and len(link.ready) != problem.slots + 1:
        raise ProblemError(
            f"Link {shown(link.before)} -> {shown(link.after)} needs {problem.slots + 1} ready "
            f"times, one a slot and one past the last, and has {len(link.ready)}."
        )


def _hold(hold: Hold, jobs: dict[str, Job], problem: Problem) -> None:
    if problem.vehicles and hold.vehicle not in {car.id for car in problem.vehicles}:
        raise ProblemError(f"A hold is for vehicle {shown(hold.vehicle)}, which is unknown.")
    if hold.station not in {station.id for station in problem.stations}:
        raise ProblemError(f"A hold is of station {shown(hold.station)}, which is unknown.")
    for name in (hold.start, hold.until):
        held = f"A hold of station {shown(hold.station)} names job"
        if name not in jobs:
            raise ProblemError(f"{held} {shown(name)}, which is unknown.")
        if jobs[name].vehicle != hold.vehicle:
            raise ProblemError(f"{held} {jobs[name].label}, which is not a job of {shown(hold.vehicle)}.")
