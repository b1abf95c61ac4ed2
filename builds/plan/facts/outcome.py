"""What the plan means for each entered car: whether it makes it, when, and what is in its way."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.changes import count_words
from builds.plan.facts.stored import Stored, shown
from builds.planner.axis import clip
from builds.planner.explain import Reason, binding_chain
from builds.work.models.job import Job
from garage.engine.words import duration_words
from garage.models import Entry, Garage


@dataclass(frozen=True)
class MustDoJob:
    """A job that a car must have done before it runs."""

    name: str
    title: str


@dataclass(frozen=True)
class CarOutcome:
    """`makes_it` is None when it is not known. `slack_minutes` by the clock, negative when late;
    `spare_minutes` of it are working time. `chain` leads from the last job back to now.
    """

    makes_it: bool | None
    sentence: str
    ready_at: datetime | None = None
    slack_minutes: int | None = None
    spare_minutes: int = 0
    obstacle: str = ""
    chain: tuple[str, ...] = ()

    def of(self, car: str, event: str) -> str:
        """The whole of it: `Heron will make Saltmarsh Hill Climb: ready Thu 20:30, ...`."""
        verb = {True: "will make", False: "will not make", None: "may make"}[self.makes_it]
        return f"{car} {verb} {event}: {self.sentence}"


def outcomes(garage: Garage, at: datetime) -> dict[int, CarOutcome]:
    """By the pk of each entry whose event is not over; three queries."""
    entries = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle")
    return outcomes_of(shown(garage), entries, standing(garage), at)


def standing(garage: Garage) -> dict[int, list[MustDoJob]]:
    """Open safety and needed jobs by vehicle; one query."""
    found: dict[int, list[MustDoJob]] = defaultdict(list)
    rows = Job.objects.in_garage(garage).open().exclude(rank=Job.Rank.WANTED)
    for pk, vehicle, title in rows.values_list("pk", "vehicle_id", "title"):
        found[vehicle].append(MustDoJob(name_of("job", pk), title))
    return found


def outcomes_of(
    plan: Stored | None,
    entries: Iterable[Entry],
    jobs: dict[int, list[MustDoJob]],
    at: datetime,
) -> dict[int, CarOutcome]:
    return {entry.pk: outcome(plan, jobs.get(entry.vehicle_id, []), entry.event.due_at, at) for entry in entries}


def outcome(plan: Stored | None, jobs: list[MustDoJob], due: datetime, at: datetime) -> CarOutcome:
    """What becomes of a car with these jobs before it that must leave at `due`."""
    if not jobs:
        return CarOutcome(True, "nothing is left to do before it leaves.", at)
    if due <= at:
        left = count_words(len(jobs), "job is", "jobs are").lower()
        return CarOutcome(False, f"it should have left, and {left} still to do.")
    if plan is None:
        return CarOutcome(None, "not planned yet.")
    missing = [job for job in jobs if job.name not in plan.jobs]
    if missing:
        new = missing[0].title if len(missing) == 1 else f"{len(missing)} new jobs"
        return CarOutcome(None, f"not known: {new} came after this plan.")
    left = [job.name for job in jobs if job.name in plan.unplaced]
    if left:
        return _never(plan, left)
    return _ready(plan, [job.name for job in jobs], due, at)


def _never(plan: Stored, left: list[str]) -> CarOutcome:
    chain = binding_chain(plan.problem, plan.answer, left[0], plan.clock.words)
    chain = tuple(reason for reason in chain if reason.kind == "unplaced")
    jobs = count_words(len(left), "job finds", "jobs find").lower()
    return CarOutcome(
        False,
        f"{jobs} no place in the plan.",
        obstacle=_first_in_the_way(chain),
        chain=_words(chain),
    )


def _ready(plan: Stored, jobs: list[str], due: datetime, at: datetime) -> CarOutcome:
    last = max((plan.placed[name] for name in jobs), key=lambda row: (row.end, row.start))
    ready, due_slot = plan.clock.moment(last.end), plan.clock.last_until(due)
    slack = int((due - ready).total_seconds() // 60)
    chain = binding_chain(plan.problem, plan.answer, last.id, plan.clock.words)
    said = f"ready {plan.clock.said(ready)}"
    in_the_way, words = _first_in_the_way(chain), _words(chain)
    if last.end > due_slot:
        late = f"{said}, {duration_words(-slack)} too late."
        return CarOutcome(False, late, ready, slack, 0, in_the_way, words)
    hours = _hours(plan)
    spare = _minutes(plan, hours, last.end, due_slot)
    first = min(plan.placed[name].end for name in jobs)
    behind = _minutes(plan, hours, first, plan.clock.last_until(at))
    if behind and behind >= spare:
        return CarOutcome(None, "not known: the work is behind this plan.", obstacle=in_the_way)
    hands_on = duration_words(spare) if spare < 48 * 60 else f"{spare // 60} h"  # never days
    to_spare = f"{hands_on} of working time to spare" if spare else "nothing to spare"
    return CarOutcome(True, f"{said}, {to_spare}.", ready, slack, spare, in_the_way, words)


def _hours(plan: Stored) -> int:
    """The slots in which at least one person is in, as bits."""
    bits = 0
    for person in plan.problem.people:
        for start, end in clip(person.windows, plan.problem.slots):
            bits |= (1 << end) - (1 << start)
    return bits


def _minutes(plan: Stored, hours: int, since: int, until: int) -> int:
    """Working minutes between two slots; none when they are the other way round."""
    between = (1 << max(since, until)) - (1 << since)
    return (hours & between).bit_count() * plan.problem.slot_minutes


def _first_in_the_way(chain: tuple[Reason, ...]) -> str:
    """The cause nearest to now, at the end of the chain."""
    causes = [reason.sentence for reason in chain if reason.kind != "now"]
    return causes[-1] if causes else ""


def _words(chain: tuple[Reason, ...]) -> tuple[str, ...]:
    return tuple(reason.sentence for reason in chain)
