"""How far each job of a plan could slip before something with a due slot would be late."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from functools import reduce
from itertools import combinations, pairwise

from builds.planner.axis import clip, overlap
from builds.planner.check_stations import Stay, load, stays
from builds.planner.fields import Windows
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Link, Problem


def slack(problem: Problem, plan: Plan) -> dict[str, int | None]:
    """Slots each placed job could start later, nothing due being late; by job id.

    The order of work on people, at stations and of where a car stands is kept, and so are hours and cures: the
    latest start of each job is found backwards from the due slots. Negative: already late by as
    much. None: nothing with a due slot waits for the job in this plan.
    """
    jobs = {job.id: job for job in problem.jobs}
    hours = {person.id: clip(person.windows, problem.slots) for person in problem.people}
    opened = {station.id: clip(station.windows, problem.slots) for station in problem.stations}
    links: dict[str, list[Link]] = {}
    for link in problem.links:
        links.setdefault(link.before, []).append(link)
    follows = _follows(problem, plan)
    latest: dict[str, int] = {}
    places = sorted(plan.placed, key=lambda place: (place.start, place.end))
    for place in _backwards(places, links, {place.id for place in places}):
        job, ahead = jobs[place.id], links.get(place.id, ())
        limits = [] if job.due is None else [job.due]
        limits += [_latest_end(link, latest[link.after], problem.slots) for link in ahead if link.after in latest]
        limits += [latest[then] for then in follows.get(place.id, ()) if then in latest]
        if limits:
            limit = min(limits)
            spans = [clip(job.windows, problem.slots), *(hours[name] for name in place.people)]
            spans += [opened[name] for name in job.uses]
            start = _latest_start(reduce(overlap, spans), job.work, job.splits, limit)
            latest[place.id] = place.start + limit - place.end if limit < place.end or start is None else start
    return {place.id: latest[place.id] - place.start if place.id in latest else None for place in plan.placed}


def _backwards(places: list[Placed], links: dict[str, list[Link]], left: set[str]) -> Iterator[Placed]:
    """Rows from the last to the first, each after all that its links lead to."""
    by_id = {place.id: place for place in places}
    for last in reversed(places):
        stack = [last.id]
        while stack:
            ahead = [link.after for link in links.get(stack[-1], ()) if link.after in left]
            if ahead:
                stack += ahead
                continue
            at = stack.pop()
            if at in left:
                left.remove(at)
                yield by_id[at]


def _latest_end(link: Link, start: int, slots: int) -> int:
    """The last slot `before` may end at when `after` starts at `start`."""
    if link.ready is None:
        return start - link.wait
    return min(bisect_right(link.ready, start) - 1, slots)


def _latest_start(spans: Windows, work: int, splits: bool, limit: int) -> int | None:
    """The last start that ends by `limit` on these windows; None when there is none."""
    if not work:
        return limit
    missing = work
    for begin, end in reversed(spans):
        end = min(end, limit)
        if begin >= end:
            continue
        if not splits:
            missing = work
        if end - begin >= missing:
            return end - missing
        missing -= end - begin
    return None


def _follows(problem: Problem, plan: Plan) -> dict[str, list[str]]:
    """For each job, the jobs that cannot start before it ends because of who or what they share."""
    jobs = {job.id: job for job in problem.jobs}
    places = sorted(
        (place for place in plan.placed if place.start < place.end), key=lambda place: (place.start, place.end)
    )
    follows: dict[str, list[str]] = {}
    for person in problem.people:
        mine = [place.id for place in places if person.id in place.people]
        for sooner, later in pairwise(mine):
            follows.setdefault(sooner, []).append(later)
    there = stays(problem, jobs, {place.id: place for place in plan.placed})
    for stay, then in (*_in_turn(problem, there), *_elsewhere(problem, there)):
        follows.setdefault((stay.last or stay.first).id, []).append(then.first.id)
    return follows


def _in_turn(problem: Problem, there: list[Stay]) -> Iterator[tuple[Stay, Stay]]:
    """For each stay at a station, the next one that it would leave no room for; after a hold, all of them."""
    for station in problem.stations:
        mine = [stay for stay in there if stay.station == station.id and stay.units]
        for k, earlier in enumerate(mine):
            for then in (stay for stay in mine[k + 1 :] if stay.start >= earlier.end):
                present = [stay for stay in mine if stay.start <= then.start < stay.end]
                own, kept = load((*present, earlier))
                taken = sum(max(own[car], kept[car]) for car in own.keys() | kept.keys())
                if taken > station.capacity:
                    yield earlier, then
                    if earlier.last is None:
                        break


def _elsewhere(problem: Problem, there: list[Stay]) -> Iterator[tuple[Stay, Stay]]:
    """Stays of one car in different places, of which one ends before the other begins."""
    stands = {station.id for station in problem.stations if station.stands}
    by_car: dict[str | None, list[Stay]] = {}
    for stay in there:
        if stay.station in stands:
            by_car.setdefault(stay.car, []).append(stay)
    for mine in by_car.values():
        for earlier, then in combinations(mine, 2):
            if then.station != earlier.station and then.start >= earlier.end:
                yield earlier, then
