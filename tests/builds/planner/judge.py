"""A second judge of plans, naive on purpose: it walks slot by slot and shares no code."""

from __future__ import annotations

from collections import Counter

from builds.planner.plan import Plan
from builds.planner.problem import Problem


def is_valid(problem: Problem, plan: Plan) -> bool:
    """Whether the plan keeps every rule of the contract and of the keys beyond it."""
    return not breaches(problem, plan)


def breaches(problem: Problem, plan: Plan) -> set[str]:
    """The names of the rules that the plan breaks."""
    jobs = {job.id: job for job in problem.jobs}
    placed = {row.id: row for row in plan.placed}
    names = [row.id for row in plan.placed] + [row.id for row in plan.unplaced]
    broken = set()
    if Counter(names) != Counter(jobs.keys()):
        return {"roll call"}
    if any(not row.why.strip() for row in plan.unplaced):
        broken.add("reason")
    for row in plan.placed:
        broken |= alone(problem, jobs[row.id], row)
    if "horizon" in broken or "crew" in broken:
        return broken
    for slot in range(problem.slots):
        working = [row for row in plan.placed if row.start <= slot < row.end]
        people = Counter(name for row in working for name in row.people)
        if any(count > 1 for count in people.values()):
            broken.add("person twice")
        held = [hold for hold in problem.holds if _cannot_be_moved(problem, hold, placed, slot)]
        for station in problem.stations:
            if _in_use(station, [jobs[row.id] for row in working], held) > station.capacity:
                broken.add("capacity")
        if _in_two_places(problem, [jobs[row.id] for row in working], held):
            broken.add("two places")
    for link in problem.links:
        if link.after not in placed:
            continue
        if link.before not in placed:
            broken.add("link")
            continue
        end = placed[link.before].end
        opens = end + link.wait if link.ready is None else max(end + link.wait, link.ready[end])
        if placed[link.after].start < opens:
            broken.add("link")
    return broken


def _cannot_be_moved(problem, hold, placed, slot):
    """Whether the hold is on in the slot: its first job begun, its last one not over."""
    if hold.start not in placed or slot < placed[hold.start].start:
        return False
    return hold.until not in placed or slot < placed[hold.until].end


def _in_use(station, working, held):
    """How many places the cars take in a slot: those they work in, or those kept for them if more."""
    places = 0
    for car in {job.vehicle for job in working} | {hold.vehicle for hold in held}:
        worked_in = sum(job.uses.get(station.id, 0) for job in working if job.vehicle == car)
        kept = [hold.units for hold in held if hold.vehicle == car and hold.station == station.id]
        places += max([worked_in, *kept])
    return places


def _in_two_places(problem, working, held):
    """Whether some car stands in two stations in a slot."""
    stands = {station.id for station in problem.stations if station.stands}
    where = {(job.vehicle, name) for job in working for name in job.uses if name in stands}
    where |= {(hold.vehicle, hold.station) for hold in held if hold.station in stands}
    return len({car for car, _ in where}) < len(where)


def _inside(windows, slot):
    return windows is None or any(begin <= slot < end for begin, end in windows)


def alone(problem, job, row):
    """The rules that a row breaks whatever else is in the plan."""
    broken = set()
    if not 0 <= row.start <= row.end <= problem.slots:
        return {"horizon"}
    if row.start < job.earliest:
        broken.add("earliest")
    if job.pinned is not None and job.pinned != row.start:
        broken.add("pinned")
    people = {person.id: person for person in problem.people}
    if len(set(row.people)) != job.hands or len(row.people) != job.hands:
        return {"crew"}
    if not set(row.people) <= set(people):
        return {"crew"}
    crew = [people[name] for name in row.people]
    if job.skill and crew and not any(job.skill in person.skills for person in crew):
        broken.add("skill")
    if job.crew is not None and set(job.crew) != set(row.people):
        broken.add("crew kept")
    hours = [person.windows for person in crew] + [job.windows]
    hours += [station.windows for station in problem.stations if station.id in job.uses]
    worked = [slot for slot in range(row.start, row.end) if all(_inside(part, slot) for part in hours)]
    if len(worked) != job.work:
        broken.add("work")
    elif worked and (worked[0] != row.start or worked[-1] != row.end - 1):
        broken.add("edges")
    if not job.splits and row.end - row.start != job.work:
        broken.add("split")
    return broken


def worth(problem: Problem, plan: Plan) -> tuple[float, ...]:
    """The score of the contract, added up the plain way."""
    end = {row.id: row.end for row in plan.placed}
    late = {job.id for job in problem.jobs if job.due is not None and end.get(job.id, job.due + 1) > job.due}
    if problem.goal == "finish":
        return (max([end.get(job.id, problem.slots) for job in problem.jobs] or [0]),)
    weight = {car.id: car.weight for car in problem.vehicles}
    missed = {job.vehicle for job in problem.jobs if job.id in late and job.rank != "wanted"}
    by_rank = [
        sum(job.weight for job in problem.jobs if job.id in late and job.rank == rank)
        for rank in ("safety", "needed", "wanted")
    ]
    dated = [job for job in problem.jobs if job.due is not None and job.rank != "wanted"]
    ready = [
        weight.get(car, 1) * max(end.get(job.id, problem.slots) for job in dated if job.vehicle == car)
        for car in {job.vehicle for job in dated}
    ]
    ends = sum(end.get(job.id, problem.slots) * (3 if job.rank == "safety" else 1) for job in problem.jobs)
    return (sum(weight.get(car, 1) for car in missed), *by_rank, sum(ready), ends)
