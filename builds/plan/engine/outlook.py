"""The one sentence on a car that must leave: led by the odds, else what the plan says, never more than is true."""

from dataclasses import dataclass, replace
from datetime import datetime

from builds.odds import words
from builds.odds.answer import VehicleOdds
from builds.plan.engine.kept_odds import KeptOdds
from builds.plan.engine.outcome import BEHIND, CarOutcome, MustDoJob, outcome
from builds.plan.engine.timed_plan import TimedPlan
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan

WILL_NOT = "Will not make it"


@dataclass(frozen=True)
class Outlook:
    """`makes_it` by the odds where there are some, else by the plan; None for touch and go and not known.

    `outcome` is what the plan by itself says. `falls_short` when it is in time less than 8 times out of 10,
    or without odds the plan has it late, and it has not left yet: what it would take is then worth asking;
    `by_luck` when some run has it in time. `outside` is the sentence for people outside the garage where that
    is another: they are not told when the car leaves, since nobody is at home then.
    """

    sentence: str
    makes_it: bool | None
    outcome: CarOutcome
    falls_short: bool = False
    outside: str = ""
    by_luck: bool = False

    def of(self, event: str, *, outside: bool = False) -> str:
        """`Saltmarsh Hill Climb. Makes it: in time 912 times out of 1,000, ...`"""
        return f"{event}. {(outside and self.outside) or self.sentence}"

    @property
    def short(self) -> str:
        """`Makes it.`: what stands before its figures."""
        return f"{self.sentence.partition(':')[0].rstrip('.')}."

    @property
    def proved(self) -> str:
        """The sentence where it is proved that the car cannot be ready in time as things are."""
        if self.sentence.startswith(WILL_NOT):
            return self.sentence
        late = self.outcome.sentence if self.outcome.in_time is False else "it cannot be done as things are."
        return f"{WILL_NOT}: {late}"


@dataclass(frozen=True)
class LeavingCar:
    """A car by its id in the problem, its open safety and needed jobs, and when it leaves (aware), or at
    an event the morning by which they are done.

    `day` is how it stands on that day if the plan goes as planned, or how it stands now where that is
    not known; None where neither is. `overnight` when more is to be done in a night at its event.
    """

    id: str
    jobs: list[MustDoJob]
    due: datetime
    day: OnPlan | Verdict | None
    overnight: bool = False


def outlook(plan: TimedPlan | None, odds: KeptOdds | None, car: LeavingCar, at: datetime) -> Outlook:
    """What is to be said of a car, seen from `at` (aware); `odds` are of that plan, None until they are found.

    A car that is not fit to run has no good word for it: not for want of work, and no more than its
    work is in time. Odds are those of the event that the car is planned for; for a later one the runs
    count by when they were ready; too few runs say nothing. A moment that has passed is never said as one to come.
    """
    by_plan = outcome(plan, car.jobs, car.due, at)
    if not car.jobs:
        return _without_work(plan, car, by_plan, at)
    if by_plan.proved:
        return Outlook(f"{WILL_NOT}: {by_plan.sentence}", False, by_plan, falls_short=car.due > at)
    if plan is None:
        return Outlook(_sentence(by_plan.sentence), None, by_plan)
    of_car = odds.odds.vehicles.get(car.id) if odds else None
    if odds and of_car and of_car.runs >= words.TELLING:
        more = odds.more_work.get(car.id)
        if not _planned_for(plan, car):
            of_car, more = _later(plan, of_car, car), None
        if by_plan.whole or (of_car.share or 0) < words.WILL_NOT:
            return _by_odds(plan, of_car, more, car, by_plan, at=at)
    return _by_plan(plan, car, by_plan, being_found=odds is None)


def _later(plan: TimedPlan, of_car: VehicleOdds, car: LeavingCar) -> VehicleOdds:
    """The odds for an event after the one that the car is planned for."""
    due = plan.clock.last_until(car.due)
    return replace(of_car, in_time=sum(moment <= due for moment in of_car.moments))


def _by_odds(
    plan: TimedPlan, of_car: VehicleOdds, more: int | None, car: LeavingCar, by_plan: CarOutcome, *, at: datetime
) -> Outlook:
    slot, share = of_car.ready_by(), of_car.share or 0.0
    if by_plan.sentence == BEHIND or (slot is not None and plan.clock.moment(slot) <= at):
        return Outlook(_sentence(BEHIND), None, by_plan)
    planned = _planned_beside(plan, slot, by_plan)
    ready, beside = _moments_said(plan, car, slot, planned)
    beside = beside if share >= words.WILL_NOT else ""
    but_for = _stands_in_the_way(car.day)
    if car.overnight:  # when the runs were ready is when that was done
        said = words.outlook_overnight(of_car, but_for=but_for)
    else:
        said = words.outlook(of_car, ready, more, beside=beside, but_for=but_for)
    makes_it = True if share >= words.MAKES_IT else None
    return Outlook(
        said, False if share < words.WILL_NOT else makes_it, by_plan, not makes_it, by_luck=bool(of_car.in_time)
    )


def _moments_said(
    plan: TimedPlan, car: LeavingCar, slot: int | None, planned: datetime | None
) -> tuple[str | None, str]:
    """When it is ready 8 times out of 10, and beside that by the plan; with dates where a day could be another."""
    moments = [moment for moment in (None if slot is None else plan.clock.moment(slot), planned) if moment]
    said = [plan.clock.said_beside(moment, moments, against=car.due) for moment in moments]
    return said[0] if said else None, words.beside_the_plan(said[1]) if planned else ""


def _planned_beside(plan: TimedPlan, slot: int | None, by_plan: CarOutcome) -> datetime | None:
    """When the plan has the car ready, on another day than 8 times out of 10, by slot `slot`."""
    planned, ready = by_plan.ready_at if by_plan.whole else None, None if slot is None else plan.clock.moment(slot)
    if ready is None or planned is None or planned.date() == ready.date():
        return None
    return planned


def _by_plan(plan: TimedPlan, car: LeavingCar, by_plan: CarOutcome, *, being_found: bool) -> Outlook:
    if by_plan.in_time is None or by_plan.ready_at is None:
        return Outlook(_sentence(by_plan.sentence), by_plan.in_time, by_plan, falls_short=by_plan.in_time is False)
    ready = plan.clock.said_beside(by_plan.ready_at, (), against=car.due)
    if not by_plan.in_time:
        there = any(job.due == car.due for job in car.jobs)
        late = f"By the plan late: ready {ready}"
        said = f"{late}, {'it must run' if there else 'it leaves'} {plan.clock.said(car.due)}."
        return Outlook(said, False, by_plan, falls_short=True, outside="" if there else f"{late}.")
    what = "its work is ready" if _stands_in_the_way(car.day) else "ready"
    said = f"By the plan {what} {ready}, in time{'; the odds are being worked out' if being_found else ''}."
    return Outlook(said, True, by_plan)


def _without_work(plan: TimedPlan | None, car: LeavingCar, by_plan: CarOutcome, at: datetime) -> Outlook:
    day, planned = car.day, plan is not None and any(job.vehicle == car.id for job in plan.jobs.values())
    work = "Only work overnight" if car.overnight else "Only wanted work" if planned else "No work"
    if _stands_in_the_way(day):
        more = f" And {len(day.reasons) - 1} more." if day and len(day.reasons) > 1 else ""
        first = day.reasons[0].sentence.rstrip(".") if day and day.reasons else "it is not known why"
        return Outlook(f"{work} is planned, but it is not fit to run: {first}.{more}", False, by_plan)
    if day is None or day.state == "not_known":
        return Outlook(f"{work} is planned, and it is not known to be fit to run.", None, by_plan)
    if car.due <= at or (isinstance(day, OnPlan) and day.on_the_way):
        rest = ", only" if work == "No work" else ", and"
        return Outlook(f"{work} is left{rest} what people tick and sign.", None, by_plan)
    return Outlook(f"Makes it: {work.lower()} is left{'' if car.overnight else ' before it leaves'}.", True, by_plan)


def _stands_in_the_way(day: OnPlan | Verdict | None) -> bool:
    return day is not None and day.state in ("blocked", "not_fit")


def _planned_for(plan: TimedPlan, car: LeavingCar) -> bool:
    """Whether the plan has the car's work due when it leaves for this event, and not for an earlier one."""
    due = min(plan.clock.last_until(car.due), plan.problem.slots)
    return any(plan.jobs[job.id].due == due for job in car.jobs if job.id in plan.jobs)


def _sentence(said: str) -> str:
    return f"{said[0].upper()}{said[1:]}"
