"""Why a car cannot make it whatever the order of the work: proofs in plain numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from builds.planner.axis import clip, length, overlap
from builds.planner.fields import quoted
from builds.planner.model import NEVER, Model
from builds.planner.never_in import no_crew
from builds.planner.problem import Job, Link, Person, Problem
from builds.planner.words import Names, When, duration, slot_number
from garage.engine.words import listed_in_words

MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class Proof:
    """`kind`: "chain" (a chain of its work is too long), "hours" (its work is too much for those
    who can do it), or "shared" (it and the other cars due by then ask for too much together).
    """

    kind: str
    sentence: str

    @property
    def impossible(self) -> bool:
        """The car alone cannot make it; otherwise it is not all of them that can."""
        return self.kind != "shared"


def proofs(
    problem: Problem,
    vehicle: str,
    when: When = slot_number,
    refused: Mapping[str, str] = MappingProxyType({}),
    *,
    leaves: int | None = None,
) -> tuple[Proof, ...]:
    """What forbids that the car is in time, the surest first; () when nothing is found.

    `refused` says of jobs (ids) why they have no place where only the garage knows; what is due after the slot in
    which the car `leaves` is done overnight at its event.

    Each holds for every order of the work: bounds that need no plan. Nothing found does not mean
    that there is a plan in time.
    """
    names = Names(problem)
    dues = [job.due for job in problem.must_do(vehicle) if job.due is not None]
    if not dues:
        return ()
    own = _asked(problem, {vehicle}, min(dues), "hours")
    proved = [_chain(problem, vehicle, names, when, refused, leaves=leaves), _hours(problem, own, names, when)]
    if not any(proved):
        cars = {job.vehicle for job in problem.jobs if job.due is not None and job.due <= min(dues)}
        shared = _asked(problem, {car for car in cars if car}, min(dues), "shared")
        proved.append(_hours(problem, shared, names, when))
    return tuple(proof for proof in proved if proof)


def soonest(problem: Problem) -> tuple[list[int], list[int | None]]:
    """Per job, in the order of the problem: the soonest slot it can end in, everybody and every
    station being free for it, and the number of the job it then waits for, if any.

    Waits, cures, hours, skills and earliest starts are kept. NEVER past the horizon.
    """
    model = Model(problem)
    ends = [NEVER] * model.size
    behind: list[int | None] = [None] * model.size
    for j in model.topological:
        at = model.earliest[j]
        cause: int | None = None
        for first, wait, ready in model.before[j]:
            ended = ends[first]
            opens = NEVER if ended == NEVER else ended + wait if ready is None else ready[ended]
            if opens > at:
                at, cause = opens, first
        if at <= model.horizon:
            ends[j] = _alone(model, j, at)
        behind[j] = cause
    return ends, behind


def _alone(model: Model, j: int, at: int) -> int:
    """The soonest end of a job begun at slot `at` or later with the best crew for it."""
    work = model.work[j]
    if not work:
        return at if model.crews[j] else NEVER
    soonest_end = NEVER
    for crew in model.crews[j]:
        slots, first = crew.axis.slots, crew.axis.rank[model.fold.folded[at]]
        for k in range(first + work - 1, len(slots)):
            if model.splits[j] or slots[k] - slots[k - work + 1] == work - 1:
                soonest_end = min(soonest_end, model.fold.real[slots[k]] + 1)
                break
    return soonest_end


def _chain(
    problem: Problem, vehicle: str, names: Names, when: When, refused: Mapping[str, str], *, leaves: int | None
) -> Proof | None:
    ends, behind = soonest(problem)
    number = {job.id: j for j, job in enumerate(problem.jobs)}
    late = [
        (ends[number[job.id]] - job.due, job)
        for job in problem.must_do(vehicle)
        if job.due is not None and ends[number[job.id]] > job.due
    ]
    if not late:
        return None
    _, job = max(late, key=lambda pair: pair[0])
    chain = [job]
    while (before := behind[number[chain[-1].id]]) is not None:
        chain.append(problem.jobs[before])
    chain.reverse()
    if stuck := _stuck(problem, [number[job.id] for job in chain], names, refused):
        return Proof("chain", stuck)
    said = _said(problem, chain)
    verb = "takes" if len(chain) == 1 else "take"
    goes = "must run" if leaves is not None and (job.due or 0) > leaves else "leaves"
    if ends[number[job.id]] > problem.slots:
        sentence = f"{said} {verb} longer than the plan reaches, even if nobody had anything else to do"
    else:
        until = when(ends[number[job.id]])
        sentence = f"{said} {verb} until {until} even if nobody had anything else to do"
    due = f"{names.car(vehicle)} {goes} {when(job.due or 0)}"
    return Proof("chain", f"{sentence}; {due}.{_start(chain[0], when)}")


def _stuck(problem: Problem, chain: Iterable[int], names: Names, refused: Mapping[str, str]) -> str:
    """Which job of the chain (numbers) no day of the plan has room for, and why; nothing where each has."""
    model = Model(problem)
    for j in chain:
        if model.work[j] and _alone(model, j, 0) == NEVER:
            job = problem.jobs[j]
            return f"{job.label} has no place. {refused.get(job.id) or no_crew(model, j, names)}"
    return ""


def _start(job: Job, when: When) -> str:
    """Why the first job of a chain does not begin at once, if it does not."""
    if job.waits_for:
        return f" {job.label} waits for {job.waits_for}."
    return f" {job.label} may not start before {when(job.earliest)}." if job.earliest > 0 else ""


def _said(problem: Problem, chain: list[Job]) -> str:
    """The jobs of a chain with what they wait for between them; of a long one the first, the last, and how many."""
    waits = {(link.before, link.after): link for link in problem.links if link.wait or link.ready}
    between = [waits.get((first.id, then.id)) for first, then in pairwise(chain)]
    if len(chain) > MOST_NAMED:
        one_by_one = "with the waits between them" if any(between) else "one after the other"
        return f"{chain[0].label} to {chain[-1].label}, {len(chain)} jobs {one_by_one},"
    return listed_in_words([_with_wait(job, wait) for job, wait in zip(chain, [*between, None], strict=True)])


def _with_wait(job: Job, wait: Link | None) -> str:
    """A job of the chain, and the wait behind it if there is one."""
    return f"{job.label} ({wait.why or 'and a wait'})" if wait else job.label


@dataclass(frozen=True, slots=True)
class _Asked:
    """What must be done by slot `due`: the jobs, and the cars that ask for them; `kind` as a proof has it."""

    jobs: tuple[Job, ...]
    cars: tuple[str, ...]
    due: int
    kind: str


def _asked(problem: Problem, cars: Iterable[str], due: int, kind: str) -> _Asked:
    """The safety and needed work of these cars that is due by then, with all that it waits for."""
    jobs = {job.id: job for job in problem.jobs}
    before: dict[str, list[str]] = {}
    for link in problem.links:
        before.setdefault(link.after, []).append(link.before)
    reached = [job.id for car in cars for job in problem.must_do(car) if job.due is not None and job.due <= due]
    wanted: set[str] = set()
    while reached:
        name = reached.pop()
        if name not in wanted:
            wanted.add(name)
            reached += before.get(name, [])
    asked = tuple(job for job in jobs.values() if job.id in wanted)
    return _Asked(asked, tuple(sorted({job.vehicle for job in asked if job.vehicle})), due, kind)


def _hours(problem: Problem, asked: _Asked, names: Names, when: When) -> Proof | None:
    """The skill, or the hands at all, that are asked for longest beyond the hours there are."""
    on = f" on {listed_in_words([names.car(car) for car in asked.cars])}" if asked.kind == "shared" else ""
    shortages = []
    for skill in (*sorted({job.skill for job in asked.jobs if job.skill}), None):
        jobs = [job for job in asked.jobs if job.hands and skill in (None, job.skill)]
        want = sum(job.work * (1 if skill else job.hands) for job in jobs)
        able = [person for person in problem.people if skill is None or skill in person.skills]
        spans = (overlap(clip(person.windows, problem.slots), ((0, asked.due),)) for person in able)
        there = sum(map(length, spans))
        asks = f" that asks for the skill {quoted(skill)}" if skill else ""
        work = f"{duration(want, problem.slot_minutes)} of safety and needed work{on}{asks} is to be done"
        hours = f"{duration(there, problem.slot_minutes)} until {when(asked.due)}"
        missing = "nobody has that skill" if skill else "there is nobody to do it"
        shortages.append(
            (want - there, f"{work}, and {_have(able, names)} {hours}." if able else f"{work}, and {missing}.")
        )
    over, sentence = max(shortages, key=lambda pair: pair[0])
    return Proof(asked.kind, sentence) if over > 0 else None


def _have(people: list[Person], names: Names) -> str:
    """`Max, Ada and Ben together have`, so many of them by name."""
    if len(people) == 1:
        return f"{names.person[people[0].id]} has"
    if len(people) > MOST_NAMED:
        return f"all {len(people)} who could do it together have"
    return f"{listed_in_words([names.person[person.id] for person in people])} together have"
