"""Planning again: the work in the order in which it stood, and what a plan is worth by its promises."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from operator import attrgetter
from random import Random

from builds.planner.aim import Aim
from builds.planner.axis import clip
from builds.planner.fields import Windows
from builds.planner.model import NEVER, Model
from builds.planner.moves import Moves
from builds.planner.order import listed
from builds.planner.place import Draft, Placer
from builds.planner.plan import Placed, Plan, Score
from builds.planner.pool import Candidate, Pool
from builds.planner.problem import Problem, Promise
from builds.planner.search import as_plan
from builds.planner.words import When, slot_number

TURNS = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Where new work is tried: as soon as what it waits for has had its turn, to just before what waits for it."""

PLACED, KEPT = 12000, 10
"""Jobs placed over again for a better list where all of these put off more than the new work takes, and lists kept."""


def planned_in_order(problem: Problem, stood: Sequence[Placed], *, when: When = slot_number) -> Plan:
    """The plan of the list in the order in which work stood before, slots of this problem.

    With the people it had then and with whoever can do it, nothing sooner than it stood and as soon as may be,
    new work at several turns between what it waits for and what waits for it. Where the best of them puts off
    more than the new work takes, one thing after the other is moved in the best few, until it does not.
    O(one pass of placing, 18 times, and as often again as jobs are placed over again).
    """
    model = Model(problem)
    placer, aim = Placer(model), Aim(model)
    stand = {model.number[place.id]: place for place in stood if place.id in model.number}
    pool = Pool(KEPT, attrgetter("value"))
    tried = 0
    for draft in _drafts(model, stand):
        pool.join(Candidate(draft, placer.place(draft), aim))
        tried += 1
    random, enough = Random(1), _put_off(model, stand, aim)
    moves = Moves(model, random)
    while tried * model.size < PLACED and pool.kept[0].value[:-1] > enough[:-1]:
        parent = pool.parent(random)
        draft = moves.moved(parent.draft, parent.late)
        pool.join(Candidate(draft, placer.place(draft), aim))
        tried += 1
    return as_plan(model, pool.kept[0].places, 0, tried, when)


def _put_off(model: Model, stand: Mapping[int, Placed], aim: Aim) -> Score:
    """What all would be worth where it ended later than it stood by as long as the new work takes."""
    more = sum(work for j, work in enumerate(model.work) if j not in stand)
    return aim.score([stand[j].end + more if j in stand else 0 for j in range(model.size)])


def _drafts(model: Model, stand: Mapping[int, Placed]) -> Iterator[Draft]:
    numbers = model.roster.numbers
    had = {j: sorted(numbers[name] for name in place.people if name in numbers) for j, place in stand.items()}
    same = [
        [crew for crew in able if j in had and sorted(crew.people) == had[j]] or able
        for j, able in enumerate(model.crews)
    ]
    then = [max(at, stand[j].start if j in stand else 0) for j, at in enumerate(model.earliest)]
    orders: list[list[int]] = []
    for turns in (*(_turns(model, stand, share) for share in TURNS), _last(model, stand)):
        order = listed(model, turns)
        if order not in orders:
            orders.append(order)
            yield Draft(order, same, model.earliest)
            yield Draft(order, model.crews, model.earliest)
            yield Draft(order, same, then)


def _last(model: Model, stand: Mapping[int, Placed]) -> list[tuple[float, int]]:
    """Nothing moves but what waits for new work: that goes where the rest leaves time."""
    turns = [(float(stand[j].start), stand[j].end) if j in stand else (float(NEVER), 0) for j in range(model.size)]
    for j in model.topological:
        if any(turns[first][0] >= NEVER for first, _, _ in model.before[j]):
            turns[j] = (NEVER + turns[j][0], turns[j][1])
    return turns


def _turns(model: Model, stand: Mapping[int, Placed], share: float) -> list[tuple[float, int]]:
    """When each job stood; a new one so far on its way from what it waits for to what waits for it."""
    after = [0.0] * model.size
    for j in model.topological:
        after[j] = max([after[first] for first, _, _ in model.before[j]], default=0.0)
        if j in stand:
            after[j] = max(after[j], stand[j].start)
    before = [float(model.horizon)] * model.size
    for j in reversed(model.topological):
        before[j] = min([before[then] for then, _, _ in model.after[j]], default=before[j])
        if j in stand:
            before[j] = min(before[j], stand[j].start)
    return [
        (stand[j].start, stand[j].end) if j in stand else (after[j] + share * max(0.0, before[j] - after[j]), 0)
        for j in range(model.size)
    ]


def worth(problem: Problem, plan: Plan) -> Score:
    """The score of a plan, its last part raised for each promise that it breaks; lower is better."""
    *first, last = plan.score
    placed = {place.id: place for place in plan.placed}
    people = {person.id: clip(person.windows, problem.slots) for person in problem.people}
    jobs = {job.id for job in problem.jobs}
    broken = sum(
        promise.job in jobs and not _kept(promise, placed.get(promise.job), window)
        for promise in problem.before
        if (window := _session(promise, people))
    )
    return (*first, last + problem.keep * broken)


def _session(promise: Promise, people: Mapping[str, Windows]) -> tuple[int, int] | None:
    """The window of the first of its people in which the work was to start; none for what is past."""
    known = [name for name in people if name in promise.people]
    if not known or len(known) < len(promise.people):
        return None
    return next(((begin, end) for begin, end in people[known[0]] if begin <= promise.start < end), None)


def _kept(promise: Promise, now: Placed | None, session: tuple[int, int]) -> bool:
    """The same people, and a start within that session."""
    return now is not None and session[0] <= now.start < session[1] and set(now.people) == set(promise.people)
