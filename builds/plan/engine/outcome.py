"""What the plan means for a car that must leave: whether it makes it, when, and what is in its way."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.engine.words import count_words
from builds.planner.axis import clip
from builds.planner.explain import binding_chain
from builds.planner.hindrance import StartReason
from garage.engine.words import duration_words


@dataclass(frozen=True)
class MustDoJob:
    """A job, by its id in the problem, that a car must have done before it runs."""

    id: str
    title: str


@dataclass(frozen=True)
class CarOutcome:
    """`makes_it` is None when it is not known; `chain` leads from the last job back to now."""

    makes_it: bool | None
    sentence: str
    ready_at: datetime | None = None
    obstacle: str = ""
    chain: tuple[str, ...] = ()

    def of(self, car: str, event: str) -> str:
        """The whole of it: `Heron will make Saltmarsh Hill Climb: ready Thu 20:30, ...`."""
        verb = {True: "will make", False: "will not make", None: "may make"}[self.makes_it]
        return f"{car} {verb} {event}: {self.sentence}"


def outcome(plan: TimedPlan | None, jobs: list[MustDoJob], due: datetime, at: datetime) -> CarOutcome:
    """What becomes of a car with these jobs before it that must leave at `due`, seen from `at` (aware)."""
    if not jobs:
        return CarOutcome(True, "nothing is left to do before it leaves.", at)
    if due <= at:
        left = count_words(len(jobs), "job is", "jobs are").lower()
        return CarOutcome(False, f"it should have left, and {left} still to do.")
    if plan is None:
        return CarOutcome(None, "not planned yet.")
    known = [job.id for job in jobs if job.id in plan.jobs]
    unplaced = [job for job in known if job in plan.unplaced]
    if unplaced:
        return _without_a_place(plan, unplaced)
    so_far = _ready(plan, known, due, at) if known else None
    unknown = [job for job in jobs if job.id not in plan.jobs]
    if so_far and (not unknown or so_far.makes_it is False):  # more work brings no car home sooner
        return so_far
    new = unknown[0].title if len(unknown) == 1 else f"{len(unknown)} new jobs"
    return CarOutcome(None, f"not known: {new} came after this plan.")


def _without_a_place(plan: TimedPlan, unplaced: list[str]) -> CarOutcome:
    chain = binding_chain(plan.problem, plan.answer, unplaced[0], plan.clock.words)
    chain = tuple(reason for reason in chain if reason.kind == "unplaced")
    jobs = count_words(len(unplaced), "job finds", "jobs find").lower()
    return CarOutcome(
        False,
        f"{jobs} no place in the plan.",
        obstacle=_first_in_the_way(chain),
        chain=_sentences(chain),
    )


def _ready(plan: TimedPlan, jobs: list[str], due: datetime, at: datetime) -> CarOutcome:
    last = max((plan.placed[job] for job in jobs), key=lambda placed: (placed.end, placed.start))
    ready, due_slot = plan.clock.moment(last.end), plan.clock.last_until(due)
    chain = binding_chain(plan.problem, plan.answer, last.id, plan.clock.words)
    said = f"ready {plan.clock.said(ready)}"
    in_the_way, sentences = _first_in_the_way(chain), _sentences(chain)
    if last.end > due_slot:
        late = duration_words(-int((due - ready).total_seconds() // 60))
        return CarOutcome(False, f"{said}, {late} too late.", ready, in_the_way, sentences)
    hours = _hours(plan)
    spare = _minutes(plan, hours, last.end, due_slot)
    first_end = min(plan.placed[job].end for job in jobs)
    behind = _minutes(plan, hours, first_end, plan.clock.last_until(at))
    if behind and behind >= spare:
        return CarOutcome(None, "not known: the work is behind this plan.", obstacle=in_the_way)
    hands_on = duration_words(spare) if spare < 48 * 60 else f"{spare // 60} h"  # never days
    to_spare = f"{hands_on} of working time to spare" if spare else "nothing to spare"
    return CarOutcome(True, f"{said}, {to_spare}.", ready, in_the_way, sentences)


def _hours(plan: TimedPlan) -> int:
    """The slots in which at least one person is in, as bits."""
    bits = 0
    for person in plan.problem.people:
        for start, end in clip(person.windows, plan.problem.slots):
            bits |= (1 << end) - (1 << start)
    return bits


def _minutes(plan: TimedPlan, hours: int, since: int, until: int) -> int:
    """Working minutes between two slots; none when they are the other way round."""
    between = (1 << max(since, until)) - (1 << since)
    return (hours & between).bit_count() * plan.problem.slot_minutes


def _first_in_the_way(chain: tuple[StartReason, ...]) -> str:
    """The cause nearest to now, at the end of the chain."""
    causes = [reason.sentence for reason in chain if reason.kind != "now"]
    return causes[-1] if causes else ""


def _sentences(chain: tuple[StartReason, ...]) -> tuple[str, ...]:
    return tuple(reason.sentence for reason in chain)
