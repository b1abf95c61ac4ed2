"""How far each job of a plan could slip before something with a due slot would be late."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from itertools import pairwise

from .axis import clip, overlap
from .fields import Windows
from .plan import Placed, Plan
from .problem import Link, Problem


def slack(problem: Problem, plan: Plan) -> dict[str, int | None]:
    """Slots each placed job could start later, nothing due being late; by job id.

    The order of work on people, stations and held places is kept, and so are hours and cures: the
    latest start of each job is found backwards from the due slots. Negative: already late by as
    much. None: nothing with a due slot waits for the job in this plan.
    """
    jobs = {job.id: job for job in problem.jobs}
    hours = {row.id: clip(row.windows, problem.slots) for row in problem.people}
    opened = {row.id: clip(row.windows, problem.slots) for row in problem.stations}
    links: dict[str, list[Link]] = {}
    for link in problem.links:
        links.setdefault(link.before, []).append(link)
    follows = _follows(problem, plan)
    latest: dict[str, int | None] = {}
    rows = sorted(plan.placed, key=lambda row: (row.start, row.end))
    left = {row.id for row in rows}
    found: dict[str, int | None] = {}
    for row in _backwards(rows, links, left):
        job = jobs[row.id]
        limits = [] if job.due is None else [job.due]
        for link in links.get(row.id, ()):
            start = latest.get(link.after)
            if start is not None:
                limits.append(_latest_end(link, start, problem.slots))
        bounds = [latest.get(then) for then in follows.get(row.id, ())]
        limits += [start for start in bounds if start is not None]
        if not limits:
            latest[row.id] = found[row.id] = None
            continue
        limit = min(limits)
        spans = clip(job.windows, problem.slots)
        for name in row.people:
            spans = overlap(spans, hours[name])
        for name in job.uses:
            spans = overlap(spans, opened[name])
        start = _latest_start(spans, job.work, job.splits, limit)
        if limit < row.end or start is None:
            start = row.start + limit - row.end
        latest[row.id] = start
        found[row.id] = start - row.start
    return found


def _backwards(rows: list[Placed], links: dict[str, list[Link]], left: set[str]) -> Iterator[Placed]:
    """Rows from the last to the first, each after all that its links lead to."""
    by_id = {row.id: row for row in rows}
    for last in reversed(rows):
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
    rows = sorted((r for r in plan.placed if r.start < r.end), key=lambda r: (r.start, r.end))
    placed = {row.id: row for row in plan.placed}
    follows: dict[str, list[str]] = {}
    for person in problem.people:
        mine = [row.id for row in rows if person.id in row.people]
        for earlier, later in pairwise(mine):
            follows.setdefault(earlier, []).append(later)
    for station in problem.stations:
        users = [(row, jobs[row.id].uses.get(station.id, 0)) for row in rows]
        users = [(row, units) for row, units in users if units]
        for k, (row, units) in enumerate(users):
            for then, _ in users[k + 1 :]:
                if then.start >= row.end:
                    load = sum(n for r, n in users if r.start <= then.start < r.end)
                    if load + units > station.capacity:
                        follows.setdefault(row.id, []).append(then.id)
                        break
    for hold in problem.holds:
        first, last = placed.get(hold.start), placed.get(hold.until)
        if first is None or last is None:
            continue
        for row in rows:
            job = jobs[row.id]
            if job.vehicle != hold.vehicle and job.uses.get(hold.station):
                if row.end <= first.start:
                    follows.setdefault(row.id, []).append(first.id)
                elif row.start >= last.end:
                    follows.setdefault(last.id, []).append(row.id)
    return follows
