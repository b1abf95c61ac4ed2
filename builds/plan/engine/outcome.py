"""What the plan by itself means for a car that must leave: whether it is in time, when, and what is in its way."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.engine.words import count_words
from builds.planner.fields import quoted
from builds.planner.hindrance import StartReason
from garage.engine.words import duration_words


@dataclass(frozen=True)
class MustDoJob:
    """A job, by its id in the problem, that a car must have done before it runs.

    `due` (aware) where that is not when the car leaves: work that is done overnight at the event.
    """

    id: str
    title: str
    due: datetime | None = None


@dataclass(frozen=True)
class CarOutcome:
    """`in_time` is None when it is not known; `chain` leads from the last job back to now.

    `proved` when no luck with the work changes it; `whole` when the plan has all of the car's work.
    """

    in_time: bool | None
    sentence: str
    ready_at: datetime | None = None
    obstacle: str = ""
    chain: tuple[str, ...] = ()
    proved: bool = False
    whole: bool = True


BEHIND = "not known: the work is behind this plan."


def outcome(plan: TimedPlan | None, jobs: list[MustDoJob], due: datetime, at: datetime) -> CarOutcome:
    """What becomes of a car with these jobs before it that must leave at `due`, seen from `at` (aware)."""
    if not jobs:
        return CarOutcome(True, "no work is left before it leaves.", at)
    if due <= at:
        left = count_words(len(jobs), "job is", "jobs are").lower()
        return CarOutcome(False, f"it should have left, and {left} still to do.", proved=True)
    if plan is None:
        return CarOutcome(None, "not planned yet.", whole=False)
    known = [job.id for job in jobs if job.id in plan.jobs]
    unplaced = [job for job in known if job in plan.unplaced]
    if unplaced:
        return _without_a_place(plan, unplaced)
    unknown = [job for job in jobs if job.id not in plan.jobs]
    so_far = _ready(plan, known, due, at, whole=not unknown) if known else None
    if so_far and (not unknown or so_far.in_time is False):  # more work brings no car home sooner
        return so_far
    new = quoted(unknown[0].title) if len(unknown) == 1 else f"{len(unknown)} new jobs"
    return CarOutcome(None, f"not known: {new} came after this plan.", whole=False)


def _without_a_place(plan: TimedPlan, unplaced: list[str]) -> CarOutcome:
    chain = plan.chain(unplaced[0])
    chain = tuple(reason for reason in chain if reason.kind == "unplaced")
    jobs = count_words(len(unplaced), "job finds", "jobs find").lower()
    return CarOutcome(
        False,
        f"{jobs} no place in the plan.",
        obstacle=_first_in_the_way(chain),
        chain=_sentences(chain),
        proved=True,
    )


def _ready(plan: TimedPlan, jobs: list[str], due: datetime, at: datetime, *, whole: bool) -> CarOutcome:
    last = max((plan.placed[job] for job in jobs), key=lambda placed: (placed.end, placed.start))
    ready = plan.clock.moment(last.end)
    chain = plan.chain(last.id)
    in_the_way, sentences = _first_in_the_way(chain), _sentences(chain)
    if ready <= at:
        return CarOutcome(None, BEHIND, obstacle=in_the_way, whole=whole)
    said, in_time = f"ready {plan.clock.said(ready)}", last.end <= plan.clock.last_until(due)
    late = "" if in_time else duration_words(-int((due - ready).total_seconds() // 60))
    sentence = f"{said}, in time." if in_time else f"{said}, {late} too late."
    return CarOutcome(in_time, sentence, ready, in_the_way, sentences, whole=whole)


def _first_in_the_way(chain: tuple[StartReason, ...]) -> str:
    """The cause nearest to now, at the end of the chain."""
    causes = [reason.sentence for reason in chain if reason.kind != "now"]
    return causes[-1] if causes else ""


def _sentences(chain: tuple[StartReason, ...]) -> tuple[str, ...]:
    return tuple(reason.sentence for reason in chain)
