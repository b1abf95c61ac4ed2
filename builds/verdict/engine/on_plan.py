"""The verdict for an event's day: what will stand in the way if the plan goes as planned."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from builds.verdict.engine.facts import Facts, JobFact
from builds.verdict.engine.judge import verdict
from builds.verdict.engine.severity import Reason
from builds.verdict.engine.undone import ComingWork, checks_then, joints_then, readings_then
from garage.engine.words import listed_in_words

IN_TIME = "in_time"
# Why a job is not over on the day, by what the plan makes of it.
STAYS = {
    "late": "The plan ends it {when}, too late.",
    "behind": "The plan had it done {when}.",
    "unplaced": "It has no place in the plan.",
    "new": "It came after the plan.",
}
NO_PLAN = "There is no plan yet."
REASONS_SAID = 2
DRIVEN = "driven"


@dataclass(frozen=True, slots=True)
class PlannedJob:
    """What the plan makes of an unfinished job: `in_time`, or one of `STAYS`.

    `when` it ends, in words, where the plan says so, in slot `over`; `measures` the readings it
    takes, `kinds` what is done (slugs).
    """

    ends: str
    when: str = ""
    measures: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    over: int = 0


@dataclass(frozen=True, slots=True)
class OnPlan:
    """`state` is clear, blocked or not_known; `on_the_way` what people still must do and sign."""

    state: str
    sentence: str
    reasons: tuple[Reason, ...] = ()
    on_the_way: tuple[str, ...] = ()


def on_plan(facts: Facts, planned: Mapping[int, PlannedJob] | None) -> OnPlan:
    """The verdict on the event's day, in which gear and lists are judged by the facts given.

    `planned` by the job's id, None without a plan; an unfinished job that is not in it counts as
    new. What the plan finishes before the car leaves is taken as done and signed, and every hold
    point on the way is named, since no plan signs anything; what it undoes on the way is undone
    unless it is taken again. All else stays as it is. Never clear with anything unknown or with an
    unfinished safety job that is not done in time. KeyError as `verdict`.
    """
    if planned is None:
        return OnPlan("not_known", NO_PLAN)
    cleared = {job.id for job in facts.jobs if job.unfinished and job.id in planned and planned[job.id].ends == IN_TIME}
    then = _on_the_day(facts, planned, cleared)
    ticks = sum(check.state == "open" for check in then.checks) + (then.stale_list is not None)
    seen = tuple(check for check in then.checks if check.state != "open")
    on_the_day = verdict(replace(then, checks=seen, stale_list=None))
    ways = tuple(_on_the_way(facts, planned, cleared, ticks))
    if on_the_day.reasons:
        unfinished = {job.id for job in facts.jobs if job.unfinished}
        reasons = tuple(_with_why(reason, unfinished, planned) for reason in on_the_day.reasons)
        besides = f" {on_the_day.not_recorded}" if facts.unknown else ""
        return OnPlan("blocked", f"{_blocked(on_the_day.reasons, facts, reasons)}{besides}", reasons, ways)
    if facts.unknown:
        missing = on_the_day.not_recorded.rstrip(".")
        return OnPlan("not_known", f"On plan, not known: {missing[0].lower()}{missing[1:]}.", (), ways)
    once = f" once {listed_in_words(ways)}" if ways else ""
    return OnPlan("clear", f"On plan, nothing stands in the way{once}.", (), ways)


def _on_the_day(facts: Facts, planned: Mapping[int, PlannedJob], cleared: set[int]) -> Facts:
    # A weld wants several jobs one after the other: with any work left over, it stays as it is.
    whole = all(job.id in cleared for job in facts.jobs if job.unfinished)
    coming = _coming(facts, planned, cleared)
    return replace(
        facts,
        # A car is put on its wheels by the work that ends: without any, it stays where it is.
        standing="driveable" if cleared else facts.standing,
        jobs=tuple(_done(job) if job.id in cleared else job for job in facts.jobs),
        holds=tuple(hold for hold in facts.holds if hold.job not in cleared),
        welds=tuple(weld for weld in facts.welds if not whole or weld.job not in cleared),
        joints=tuple(joints_then(facts.joints, coming)),
        readings=tuple(readings_then(facts.readings, coming)),
        checks=tuple(checks_then(facts.checks, coming)),
        cures=tuple(cure for cure in facts.cures if not cure.by_then),
    )


def _coming(facts: Facts, planned: Mapping[int, PlannedJob], cleared: set[int]) -> tuple[ComingWork, ...]:
    """The work that is done in time, in the order in which it ends."""
    jobs = sorted((job for job in facts.jobs if job.id in cleared), key=lambda job: planned[job.id].over)
    return tuple(
        ComingWork(job.title, was.kinds, job.systems, was.measures, job.rank == "wanted")
        for job in jobs
        for was in (planned[job.id],)
    )


def _done(job: JobFact) -> JobFact:
    return replace(job, state="signed", worked=True)


def _on_the_way(facts: Facts, planned: Mapping[int, PlannedJob], cleared: set[int], ticks: int) -> Iterator[str]:
    """What people still have to do besides the work itself, each as `... is signed`."""
    points = [hold for hold in facts.holds if hold.job in cleared]
    titles = {job.id: job.title for job in facts.jobs}
    if points:
        names = "; ".join(f"“{titles[hold.job]}”: {hold.what.rstrip('.')}" for hold in points)
        many = len(points) > 1
        count = f"{len(points)} hold points are" if many else "1 hold point is"
        yield f"{count} signed ({names})"
    held = {hold.job for hold in points}
    if any(job.safety for job in facts.jobs if job.id in cleared and job.id not in held):
        yield "its safety work is signed"
    if ticks:
        yield f"{ticks} scrutineering item{'s are' if ticks > 1 else ' is'} ticked"
    drives = [job.title for job in facts.jobs if job.id in cleared and DRIVEN in planned[job.id].kinds]
    if drives:
        yield f"what running changes is looked at again after “{drives[-1]}”"
    if cleared and facts.standing != "driveable":
        yield "it stands on its wheels"


def _with_why(reason: Reason, unfinished: set[int], planned: Mapping[int, PlannedJob]) -> Reason:
    """A job's reason with what the plan makes of it."""
    if reason.kind != "job" or reason.ref not in unfinished:
        return reason
    job = planned.get(reason.ref, PlannedJob("new"))
    if job.ends == IN_TIME:
        return reason
    why = STAYS[job.ends].format(when=job.when)
    return replace(reason, sentence=f"{reason.sentence.rstrip('.')}. {why}")


def _blocked(then: tuple[Reason, ...], facts: Facts, reasons: tuple[Reason, ...]) -> str:
    """How many things stand in the way on the day, and of how many of now where it is some of those."""
    count, now = len(then), [reason.sentence for reason in verdict(facts).reasons]
    said = " ".join(f"{reason.sentence.rstrip('.')}." for reason in reasons[:REASONS_SAID])
    more = f" And {count - REASONS_SAID} more." if count > REASONS_SAID else ""
    if len(now) > count and all(reason.sentence in now for reason in then):
        things = f"{count} of the {len(now)} things"
    else:
        things = f"{count} things" if count > 1 else "1 thing"
    return f"On plan, {things} still stand{'s' * (count == 1)} in the way on the day: {said}{more}"
