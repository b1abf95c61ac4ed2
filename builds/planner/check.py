"""The judge of plans: every fault of a plan in words, and its score. It places nothing."""

from __future__ import annotations

from collections.abc import Iterator

from builds.planner.check_stations import overfull, stays, torn
from builds.planner.plan import Placed, Plan, Score
from builds.planner.problem import Job, Link, Problem


def faults(problem: Problem, plan: Plan) -> list[str]:
    """Whatever makes the plan invalid for the problem, one sentence each; [] for a valid plan."""
    jobs = {job.id: job for job in problem.jobs}
    found = list(_roll_call(jobs, plan))
    rows = {row.id: row for row in plan.placed if row.id in jobs}
    opened = _opening(problem)
    sound = []
    for row in rows.values():
        faults_here = list(_alone(problem, jobs[row.id], row, opened))
        found += faults_here
        if 0 <= row.start <= row.end <= problem.slots:
            sound.append(row)
    sound.sort(key=lambda row: (row.start, row.end))
    found += _people(jobs, sound)
    placed = {row.id: row for row in sound}
    there = stays(problem, jobs, placed)
    for station in problem.stations:
        found += overfull(station, there)
    found += torn(problem, there)
    for link in problem.links:
        found += _link(link, jobs, placed)
    return found


def score(problem: Problem, plan: Plan) -> Score:
    """What the plan is worth; lower is better, compared left to right.

    (weight of the cars that miss their event; late safety, late needed, late wanted jobs by weight;
    for each car its weight times the latest end of its safety and needed jobs with a due slot; sum
    of ends, safety counted three times); (latest end,) for the goal "finish". A job without a place
    ends at the horizon, and is late when it has a due slot.
    """
    ends = {row.id: row.end for row in plan.placed}
    finish = max((ends.get(job.id, problem.slots) for job in problem.jobs), default=0)
    if problem.goal == "finish":
        return (finish,)
    worth = {car.id: car.weight for car in problem.vehicles}
    late = {"safety": 0.0, "needed": 0.0, "wanted": 0.0}
    missed: dict[str | None, float] = {}
    ready: dict[str | None, float] = {}
    summed = 0
    for job in problem.jobs:
        end = ends.get(job.id, problem.slots)
        summed += (3 if job.rank == "safety" else 1) * end
        if job.due is None:
            continue
        weight = worth.get(job.vehicle or "", 1)
        if job.rank != "wanted":
            ready[job.vehicle] = max(ready.get(job.vehicle, 0), weight * end)
        if job.id not in ends or end > job.due:
            late[job.rank] += job.weight
            if job.rank != "wanted":
                missed[job.vehicle] = weight
    by_rank = (late["safety"], late["needed"], late["wanted"])
    return (sum(missed.values()), *by_rank, sum(ready.values()), summed)


def _roll_call(jobs: dict[str, Job], plan: Plan) -> Iterator[str]:
    seen: set[str] = set()
    for row in plan.placed:
        if row.id not in jobs:
            yield f"{row.id} is placed, and there is no such job."
        elif row.id in seen:
            yield f"{jobs[row.id].label} is placed twice."
        seen.add(row.id)
    for left in plan.unplaced:
        if left.id not in jobs:
            yield f"{left.id} is left unplaced, and there is no such job."
        elif left.id in seen:
            yield f"{jobs[left.id].label} is named twice: placed, or left unplaced."
        if not left.why.strip():
            yield f"{left.id} is left unplaced without a reason."
        seen.add(left.id)
    for job in jobs.values():
        if job.id not in seen:
            yield f"{job.label} is neither placed nor left unplaced."


def _opening(problem: Problem) -> dict[tuple[str, str], int]:
    """Per person, station and job, the slots it can be worked in, slot k as bit k."""
    everything = (1 << problem.slots) - 1
    opened = {}
    for kind, rows in (("p", problem.people), ("s", problem.stations), ("j", problem.jobs)):
        for row in rows:
            if row.windows is None:
                opened[kind, row.id] = everything
            else:
                bits = (_span(begin, end) for begin, end in row.windows)
                opened[kind, row.id] = sum(bits) & everything
    return opened


def _span(begin: int, end: int) -> int:
    return (1 << max(0, end)) - (1 << max(0, begin))


def _alone(problem: Problem, job: Job, row: Placed, opened: dict[tuple[str, str], int]) -> Iterator[str]:
    """Faults of a row that need no other row to be seen."""
    who = job.label
    if not 0 <= row.start <= row.end <= problem.slots:
        yield f"{who} is placed from {row.start} to {row.end}, outside the plan."
        return
    if row.start < job.earliest:
        yield f"{who} starts at {row.start}, before its earliest start {job.earliest}."
    if job.pinned is not None and row.start != job.pinned:
        yield f"{who} starts at {row.start}, and is pinned to {job.pinned}."
    skills = {person.id: person.skills for person in problem.people}
    unknown = [name for name in row.people if name not in skills]
    if unknown:
        yield f"{who} has {unknown[0]}, who is unknown."
        return
    if len(row.people) != job.hands or len(set(row.people)) != job.hands:
        yield f"{who} wants {job.hands} people at once, and has {len(set(row.people))}."
    if job.hands and job.skill and not any(job.skill in skills[name] for name in row.people):
        yield f"{who} has nobody who can {job.skill}."
    if job.crew is not None and set(row.people) != set(job.crew):
        yield f"{who} has lost the people who have it in hand."
    allowed = _span(row.start, row.end) & opened["j", job.id]
    for name in row.people:
        allowed &= opened["p", name]
    for name in job.uses:
        allowed &= opened["s", name]
    if allowed.bit_count() != job.work:
        yield f"{who} has {allowed.bit_count()} slots it can be worked in, and wants {job.work}."
    elif job.work and not (allowed >> row.start & 1 and allowed >> (row.end - 1) & 1):
        yield f"{who} starts or ends in a slot it cannot be worked in."
    if not job.splits and row.end - row.start != job.work:
        yield f"{who} is split, and must not be."


def _people(jobs: dict[str, Job], rows: list[Placed]) -> Iterator[str]:
    busy: dict[str, Placed] = {}
    for row in rows:
        if row.end == row.start:
            continue
        for name in row.people:
            other = busy.get(name)
            if other and row.start < other.end:
                yield f"{name} is on {jobs[other.id].label} and {jobs[row.id].label} at once."
            if not other or row.end > other.end:
                busy[name] = row


def _link(link: Link, jobs: dict[str, Job], placed: dict[str, Placed]) -> Iterator[str]:
    before, after = placed.get(link.before), placed.get(link.after)
    if not after:
        return
    first, then = jobs[link.before].label, jobs[link.after].label
    if not before:
        yield f"{then} is placed, and {first} before it is not."
    elif after.start < link.opens(before.end):
        yield (
            f"{then} starts at {after.start}, and {first}, ending at {before.end}, "
            f"opens it at {link.opens(before.end)}."
        )
