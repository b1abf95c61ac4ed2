"""A problem, its plan, and the clock that turns slots into moments."""

from dataclasses import dataclass, field, replace
from functools import cached_property

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.engine.ids import CORNER, is_fact, is_of
from builds.planner.explain import binding_chain, reasons
from builds.planner.hindrance import StartReason
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Job, Problem, Promise
from builds.planner.words import Names
from builds.work.engine.apart import APART

AT_CORNER = "is worked on"


@dataclass(frozen=True)
class TimedPlan:
    """`jobs`, `placed` and `unplaced` go by the id of a job, without the facts that only start a hold.

    `people` are names by id, `reasons` by job why it starts when it does. A `discreet` one does not say who is not in.
    """

    problem: Problem
    answer: Plan
    clock: PlanClock
    discreet: bool = field(default=False, kw_only=True)

    @cached_property
    def jobs(self) -> dict[str, Job]:
        return {job.id: job for job in self.problem.jobs if not is_fact(job.id)}

    @cached_property
    def placed(self) -> dict[str, Placed]:
        return {placed.id: placed for placed in self.answer.placed if placed.id in self.jobs}

    @cached_property
    def unplaced(self) -> dict[str, Unplaced]:
        return {unplaced.id: unplaced for unplaced in self.answer.unplaced if unplaced.id in self.jobs}

    @cached_property
    def people(self) -> dict[str, str]:
        return {person.id: person.name or person.id for person in self.problem.people}

    @cached_property
    def reasons(self) -> dict[str, StartReason]:
        reasons_by_job = reasons(self.problem, self.answer, self.clock.words)
        return {job: self._told(job, reason) for job, reason in reasons_by_job.items()}

    def chain(self, job: str) -> tuple[StartReason, ...]:
        """From the job (id) back to now: what it waited for, what that waited for, and so on."""
        chain = binding_chain(self.problem, self.answer, job, self.clock.words)
        waiting = (job, *(reason.job or "" for reason in chain))
        told = zip(waiting, map(self._told, waiting, chain), strict=False)
        return tuple(self._with_cars(name, reason, self.jobs[job].vehicle) for name, reason in told)

    def _with_cars(self, job: str, reason: StartReason, car: str | None) -> StartReason:
        """Shared hands and stations lead back to jobs of other cars, which might be taken for those of this one."""
        said, names = [reason.sentence], Names(self.problem)
        for name in (job, reason.job or ""):
            other = self.jobs.get(name)
            if other is not None and other.vehicle not in (None, car):
                car = other.vehicle
                said.append(f"{other.label} is work on {names.car(car)}.")
        return replace(reason, sentence=" ".join(said))

    def _told(self, job: str, reason: StartReason) -> StartReason:
        """`The engine of Wren runs for “Warm it up” until Wed 20:45, so “Wheels off” waits.`"""
        if self.discreet and reason.kind == "away":
            label = self.jobs[job].label
            rest = reason.sentence.partition(f", so {label} waits.")[2]
            return replace(reason, sentence=f"{label} waits until there are hands for it.{rest}")
        if reason.kind != "station":
            return reason
        station, before = reason.refs
        rule = next((rule for rule in APART if is_of(rule.what, station)), None)
        if rule is None and not is_of(CORNER, station):
            return reason
        kept = next(one for one in self.problem.stations if one.id == station)
        how = AT_CORNER
        if rule is not None:
            how = rule.while_alone if self.jobs[before].uses[station] == kept.capacity else rule.while_rest
        name, until = kept.name or kept.id, self.clock.words(self.placed[before].end + self.jobs[before].clears)
        said = f"{name[0].upper()}{name[1:]} {how} for {self.jobs[before].label} until {until}"
        return replace(reason, sentence=f"{said}, so {self.jobs[job].label} waits.")

    def promises(self, clock: PlanClock) -> tuple[Promise, ...]:
        """Where the work stands in this plan, in the slots of another clock."""
        return tuple(
            Promise(placed.id, clock.last_until(self.clock.moment(placed.start)), placed.people)
            for placed in self.placed.values()
        )
