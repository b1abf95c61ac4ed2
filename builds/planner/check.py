"""The judge of plans: every fault of a plan in words, and its score. It places nothing."""

from __future__ import annotations

from collections.abc import Iterator

from builds.planner.check_stations import overfull, stays, torn
from builds.planner.plan import Placed, Plan, Score
from builds.planner.problem import Job, Link, Problem


def faults(problem: Problem, plan: Plan) -> list[str]:
    """Whatever makes the plan invalid for the problem, one sentence each; [] for a valid plan."""
    jobs = {job.id: job for job in problem.jobs}
    faults = [*_roll_call(jobs, plan), *_facts(problem, jobs, plan)]
    opened = _opening(problem)
    sound = []
    for place in {place.id: place for place in plan.placed if place.id in jobs}.values():
        faults += _alone(problem, jobs[place.id], place, opened)
        if 0 <= place.start <= place.end <= problem.slots:
            sound.append(place)
    sound.sort(key=lambda place: (place.start, place.end))
    faults += _people(jobs, sound)
    placed = {place.id: place for place in sound}
    there = stays(problem, jobs, placed)
    for station in problem.stations:
        faults += overfull(station, there, problem.facts)
    faults += torn(problem, there)
    for link in problem.links:
        faults += _link(link, jobs, placed) or _looked_at(link, jobs, placed, opened)
    return faults


def score(problem: Problem, plan: Plan) -> Score:
    """What the plan is worth; lower is better, compared left to right.

    (weight of the cars that miss their event; late safety, late needed, late wanted jobs by weight;
    for each car its weight times the latest end of its safety and needed jobs with a due slot; sum
    of ends, safety counted three times); (latest end,) for the goal "finish". A job without a place
    ends at the horizon, and is late when it has a due slot.
    """
    ends = {place.id: place.end for place in plan.placed}
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
        if job.must_do:
            ready[job.vehicle] = max(ready.get(job.vehicle, 0), weight * end)
        if job.id not in ends or end > job.due:
            late[job.rank] += job.weight
            if job.must_do:
                missed[job.vehicle] = weight
    by_rank = (late["safety"], late["needed"], late["wanted"])
    return (sum(missed.values()), *by_rank, sum(ready.values()), summed)


def _roll_call(jobs: dict[str, Job], plan: Plan) -> Iterator[str]:
    seen: set[str] = set()
    for place in plan.placed:
        if place.id not in jobs:
            yield f"{place.id} is placed, and there is no such job."
        elif place.id in seen:
            yield f"{jobs[place.id].label} is placed twice."
        seen.add(place.id)
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


def _facts(problem: Problem, jobs: dict[str, Job], plan: Plan) -> Iterator[str]:
    placed = {place.id for place in plan.placed}
    for fact in sorted(problem.facts - placed):
        yield f"{jobs[fact].label} has begun, and is left out."


def _opening(problem: Problem) -> dict[tuple[str, str], int]:
    """Per person, station and job, the slots it can be worked in, slot k as bit k."""
    everything = (1 << problem.slots) - 1
    opened = {}
    for kind, parts in (("p", problem.people), ("s", problem.stations), ("j", problem.jobs)):
        for part in parts:
            if part.windows is None:
                opened[kind, part.id] = everything
            else:
                bits = (_span(begin, end) for begin, end in part.windows)
                opened[kind, part.id] = sum(bits) & everything
    return opened


def _span(begin: int, end: int) -> int:
    return (1 << max(0, end)) - (1 << max(0, begin))


def _alone(problem: Problem, job: Job, place: Placed, opened: dict[tuple[str, str], int]) -> Iterator[str]:
    """Faults of a place that need no other place to be seen."""
    if not 0 <= place.start <= place.end <= problem.slots:
        yield f"{job.label} is placed from {place.start} to {place.end}, outside the plan."
        return
    if place.start < job.earliest:
        yield f"{job.label} starts at {place.start}, before its earliest start {job.earliest}."
    if job.pinned is not None and place.start != job.pinned:
        yield f"{job.label} starts at {place.start}, and is pinned to {job.pinned}."
    skills = {person.id: person.skills for person in problem.people}
    unknown = [name for name in place.people if name not in skills]
    if unknown:
        yield f"{job.label} has {unknown[0]}, who is unknown."
        return
    barred = [person.id for person in problem.people if job.vehicle and job.vehicle in person.not_on]
    for name in set(barred).intersection(place.people) - set(job.crew or ()):
        yield f"{job.label} has {name}, who does not work on its car."
    yield from _crew(job, place, skills)
    yield from _hours(job, place, opened)


def _crew(job: Job, place: Placed, skills: dict[str, tuple[str, ...]]) -> Iterator[str]:
    """Whether the people of a place are those that the job asks for."""
    if len(place.people) != job.hands or len(set(place.people)) != job.hands:
        yield f"{job.label} wants {job.hands} people at once, and has {len(set(place.people))}."
    if job.hands and job.skill and not any(job.skill in skills[name] for name in place.people):
        yield f"{job.label} has nobody with the skill “{job.skill}”."
    if job.crew is not None and set(place.people) != set(job.crew):
        yield f"{job.label} has lost the people who have it in hand."


def _hours(job: Job, place: Placed, opened: dict[tuple[str, str], int]) -> Iterator[str]:
    """Whether the people and stations of a place leave the job as many slots as it asks for."""
    allowed = _span(place.start, place.end) & opened["j", job.id]
    for name in place.people:
        allowed &= opened["p", name]
    for name in job.uses:
        allowed &= opened["s", name]
    if allowed.bit_count() != job.work:
        yield f"{job.label} has {allowed.bit_count()} slots it can be worked in, and wants {job.work}."
    elif job.work and not (allowed >> place.start & 1 and allowed >> (place.end - 1) & 1):
        yield f"{job.label} starts or ends in a slot it cannot be worked in."
    if not job.splits and place.end - place.start != job.work:
        yield f"{job.label} is split, and must not be."


def _people(jobs: dict[str, Job], places: list[Placed]) -> Iterator[str]:
    busy: dict[str, Placed] = {}
    for place in places:
        if place.end == place.start:
            continue
        for name in place.people:
            other = busy.get(name)
            if other and place.start < other.end:
                yield f"{name} is on {jobs[other.id].label} and {jobs[place.id].label} at once."
            if not other or place.end > other.end:
                busy[name] = place


def _link(link: Link, jobs: dict[str, Job], placed: dict[str, Placed]) -> list[str]:
    before, after = placed.get(link.before), placed.get(link.after)
    if not after:
        return []
    first, then = jobs[link.before].label, jobs[link.after].label
    if not before:
        return [f"{then} is placed, and {first} before it is not."]
    if after.start < link.opens(before.end):
        opens = link.opens(before.end)
        return [f"{then} starts at {after.start}, and {first}, ending at {before.end}, opens it at {opens}."]
    return []


def _looked_at(
    link: Link, jobs: dict[str, Job], placed: dict[str, Placed], opened: dict[tuple[str, str], int]
) -> list[str]:
    """Whether somebody who did not work on what comes before was in from its last slot to the start of the next."""
    before, after = placed.get(link.before), placed.get(link.after)
    if not (before and after):
        return []
    others = [name for name in jobs[link.before].eyes if name not in before.people]
    span = _span(before.end - 1, after.start + 1)
    if not others or any(opened.get(("p", name), 0) & span for name in others):
        return []
    return [f"{jobs[link.after].label} starts before anybody could look at {jobs[link.before].label}."]
