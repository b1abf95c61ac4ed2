"""A slow judge of the odds: whenever a session or a job is over a new problem is made of what is left.

Written apart from the odds, of which it uses nothing: it knows the contract and the planner's quick plan, takes
the best of four orders from nothing each time, and goes through the sessions slot by slot. A length is known
when its job ends; until then a job in hand is taken to need what is left of its work, at least one slot. Jobs
in hand keep people and stations; no job begins before the plan has it, which may keep its people for another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builds.planner.aim import Aim
from builds.planner.axis import clip, joined
from builds.planner.crews import Crew
from builds.planner.model import NEVER, PENDING, Model
from builds.planner.order import JobUrgency, by_car, by_due, by_rank, by_rank_and_car, listed
from builds.planner.place import Draft, Placer, Places
from builds.planner.problem import Hold, Job, Link, Problem

ORDERS = (by_rank, by_due, by_rank_and_car, by_car)

THERE = "there "
"""How the pieces begin that stand for a car that cannot be moved."""

Agenda = list[tuple[int, int, str, tuple[str, ...]]]
"""Start, end, job and people."""


@dataclass(frozen=True)
class Begun:
    """A job in hand or over: when it began, who is on it, and when it ends or ended."""

    start: int
    people: tuple[str, ...]
    end: int


class Plain(Placer):
    """Places what is left around the jobs in hand.

    Cars that cannot be moved come first; a hold keeps its places to the horizon, until its last job has
    a place, or where others come there later is placed with all that its end waits for; of crews that end a job
    in the same slot the first in the order of the people takes it.
    """

    def __init__(self, model: Model, hand: Sequence[tuple[int, int, int, Crew]]) -> None:
        super().__init__(model)
        self.hand = hand
        self.crews = [sorted((crew.without_cost() for crew in crews), key=_people) for crews in model.crews]

    def placed(self, order: Sequence[int]) -> Places:
        """The plan of a list."""
        standing = [j for j in order if self.model.problem.jobs[j].id.startswith(THERE)]
        rest = [j for j in order if j not in standing]
        return self.place(Draft([*standing, *rest], self.crews, self.model.earliest))

    def _begin(self, draft: Draft, kin: object) -> Places:
        places = Places.empty(self.model)
        for job, start, end, crew in self.hand:
            self._book(places, job, start, end, crew)
        return places

    def _block(self, draft: Draft, state: Places, start: int, position: dict[int, int]) -> bool:
        keeper, span = self.keeper, self.everything
        held = [h for h, first in enumerate(self.holds.starts) if first == start]
        taken = any(keeper.in_the_way(state, h, span, keeper.wants(state, h, span)) for h in held)
        done = (taken and super()._block(draft, state, start, position)) or self._open_ended(draft, state, start)
        self._book_anew(state)
        return done

    def _job(self, draft: Draft, state: Places, j: int, position: object = None, at: int = 0) -> bool:
        done = super()._job(draft, state, j, None, at)
        if done and j in self.holds.ends:
            self._book_anew(state)
        return done

    def _book_anew(self, state: Places) -> None:
        """What is free, from what is placed."""
        fresh, work = Places.empty(self.model), self.model.work
        for j, end in enumerate(state.end):
            if PENDING < end < NEVER and work[j]:
                self._book(fresh, j, state.start[j], end, Crew(state.crew[j], None, 0))
        for h, (first, last) in enumerate(zip(self.holds.starts, self.holds.ends, strict=True)):
            if PENDING < state.end[first] < NEVER:
                over = state.end[last] if PENDING < state.end[last] < NEVER else self.model.horizon
                span = max(0, (1 << self.folded[over]) - (1 << self.folded[state.start[first]]))
                self.keeper.keep(fresh, h, span, self.keeper.wants(fresh, h, span))
        state.free = fresh.free


def _people(crew: Crew) -> tuple[int, ...]:
    return crew.people


class Judge:
    """Goes through runs of a problem."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.jobs = {job.id: job for job in problem.jobs}
        everyone = [clip(person.windows, problem.slots) for person in problem.people]
        self.sessions = sorted({0, *(begin for begin, _ in joined(everyone))})
        self.open = {
            thing.id: {slot for begin, end in clip(thing.windows, problem.slots) for slot in range(begin, end)}
            for thing in (*problem.people, *problem.stations)
        }

    def run(self, lengths: Mapping[str, int]) -> dict[str, int]:
        """When each job ended that did so before the horizon, with lengths in slots."""
        begun: dict[str, Begun] = {}
        for at, until in zip(self.sessions, [*self.sessions[1:], self.problem.slots], strict=True):
            if len(begun) == len(self.jobs):
                break
            agenda: Agenda = []
            for slot in range(at, until):
                if slot == at or any(job.end == slot for job in begun.values()):
                    agenda = self._plan(slot, until, begun)
                agenda = self._begin(slot, agenda, begun, lengths)
        return {name: job.end for name, job in begun.items() if job.end <= self.problem.slots}

    def _begin(self, slot: int, agenda: Agenda, begun: dict[str, Begun], lengths: Mapping[str, int]) -> Agenda:
        """Begin what can be; jobs without work open others at once."""
        while True:
            waiting, again = [], False
            for planned in agenda:
                job = self.jobs[planned[2]]
                people = planned[3]
                if planned[0] > slot or not self._can(job, people, slot, begun):
                    waiting.append(planned)
                else:
                    begun[job.id] = Begun(slot, people, self._end(job, people, slot, lengths[job.id]))
                    again = again or not job.work
            agenda = waiting
            if not again:
                return agenda

    def _workable(self, job: Job, people: Sequence[str]) -> list[int]:
        slots = {slot for begin, end in clip(job.windows, self.problem.slots) for slot in range(begin, end)}
        for name in (*people, *job.uses):
            slots = slots & self.open[name]
        return sorted(slots)

    def _end(self, job: Job, people: Sequence[str], start: int, length: int) -> int:
        if not job.work:
            return start
        if not job.splits:
            return start + length
        left = [slot for slot in self._workable(job, people) if slot >= start]
        return left[length - 1] + 1 if length <= len(left) else NEVER

    def _can(self, job: Job, people: Sequence[str], slot: int, begun: Mapping[str, Begun]) -> bool:
        if slot < max(job.earliest, job.pinned or 0):
            return False
        for link in self.problem.links:
            if link.after == job.id:
                before = begun.get(link.before)
                if before is None or before.end > slot or link.opens(before.end) > slot:
                    return False
        if not job.work:
            return True
        in_hand = {name: other for name, other in begun.items() if other.end > slot}
        if any(set(people) & set(other.people) for other in in_hand.values()):
            return False
        workable = set(self._workable(job, people))
        wanted = {slot} if job.splits else set(range(slot, slot + job.work))
        return wanted <= workable and self._room(job, slot, begun, list(in_hand))

    def _room(self, job: Job, slot: int, begun: Mapping[str, Begun], in_hand: list[str]) -> bool:
        def over(name: str) -> bool:
            return name in begun and begun[name].end <= slot

        at_work = [*(self.jobs[name] for name in in_hand), job]
        holds = [
            hold
            for hold in self.problem.holds
            if (hold.start in begun or hold.start == job.id) and not over(hold.until)
        ]
        begins = [hold.station for hold in holds if hold.start == job.id]
        for station in self.problem.stations:
            if station.id in (*job.uses, *begins):
                own, kept = _load(station.id, at_work, holds)
                taken = sum(max(own.get(car, 0), kept.get(car, 0)) for car in {*own, *kept})
                if taken > station.capacity:
                    return False
        stands = {station.id for station in self.problem.stations if station.stands}
        if not stands & {*job.uses, *begins}:
            return True
        places = {name for other in at_work if other.vehicle == job.vehicle for name in other.uses if name in stands}
        places |= {hold.station for hold in holds if hold.vehicle == job.vehicle and hold.station in stands}
        return len(places) <= 1

    def _plan(self, at: int, until: int, begun: Mapping[str, Begun]) -> Agenda:
        """The best of four quick plans of what is left."""
        left, hand = self._left(at, begun)
        model = Model(left)
        aim, urgency = Aim(model), JobUrgency(model)
        number = {person.id: k for k, person in enumerate(left.people)}
        hands = [
            (model.number[name], at, end, Crew(tuple(number[person] for person in begun[name].people), None, 0))
            for name, end in hand.items()
        ]
        orders = [listed(model, [rule(urgency, job) for job in range(model.size)]) for rule in ORDERS]
        placer = Plain(model, hands)
        places = min(map(placer.placed, orders), key=lambda made: aim.value(made))
        return sorted(
            (places.start[k], places.end[k], job.id, tuple(left.people[person].id for person in places.crew[k]))
            for k, job in enumerate(left.jobs)
            if job.id in self.jobs and job.id not in begun and places.start[k] < until and places.end[k] < NEVER
        )

    def _left(self, at: int, begun: Mapping[str, Begun]) -> tuple[Problem, dict[str, int]]:
        """The problem of what is not over, and when the jobs in hand should be."""
        problem, hand, opens = self.problem, {}, {}
        over = {name for name, job in begun.items() if job.end <= at}
        links = [link for link in problem.links if link.before not in over and link.after not in begun]
        for link in problem.links:
            if link.before in over:
                opens[link.after] = max(opens.get(link.after, 0), link.opens(begun[link.before].end))
        jobs = []
        for job in problem.jobs:
            if job.id in over:
                continue
            if job.id in begun:
                hand[job.id] = self._expected(job, begun[job.id], at)
            pin = job.pinned if job.pinned is not None and job.pinned >= at else None
            jobs.append(replace(job, earliest=max(at, job.earliest, opens.get(job.id, 0)), pinned=pin))
        holds: list[Hold] = []
        for k, hold in enumerate(problem.holds):
            if hold.until in over:
                continue
            if hold.start not in begun:
                holds.append(hold)
                continue
            jobs.append(Job(f"{THERE}{k}", hold.vehicle, "wanted", 0, 0, earliest=at))
            holds.append(replace(hold, start=f"{THERE}{k}"))
            if hold.until not in begun:
                links.append(Link(f"{THERE}{k}", hold.until))
        return replace(problem, jobs=tuple(jobs), links=tuple(links), holds=tuple(holds), before=()), hand

    def _expected(self, job: Job, begun: Begun, at: int) -> int:
        if not job.splits:
            return min(self.problem.slots, at + max(1, job.work - (at - begun.start)))
        workable = self._workable(job, begun.people)
        done = sum(begun.start <= slot < at for slot in workable)
        ahead = [slot for slot in workable if slot >= at]
        needs = max(1, job.work - done)
        return ahead[needs - 1] + 1 if needs <= len(ahead) else self.problem.slots


def _load(
    station: str, at_work: Sequence[Job], holds: Sequence[Hold]
) -> tuple[dict[str | None, int], dict[str | None, int]]:
    own: dict[str | None, int] = {}
    kept: dict[str | None, int] = {}
    for job in at_work:
        if job.uses.get(station):
            own[job.vehicle] = own.get(job.vehicle, 0) + job.uses[station]
    for hold in holds:
        if hold.station == station:
            kept[hold.vehicle] = max(kept.get(hold.vehicle, 0), hold.units)
    return own, kept
