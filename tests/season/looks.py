"""What the season looks at after each step: the same garage as Today, plan, verdict and sheet tell it."""

from collections.abc import Collection
from dataclasses import dataclass, field, replace
from datetime import datetime

from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from builds.paper.pages.checklist import checklist_rows
from builds.plan.actions.plans import PlanningCase, as_it_was
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.outlook import Outlook
from builds.plan.engine.stored import Stored
from builds.plan.facts.stored import shown
from builds.plan.pages.wall import PlanPage, load_plan_page
from builds.planner.again import worth
from builds.planner.plan import Plan
from builds.planner.problem import Problem
from builds.readings.models.reading import Reading
from builds.readings.models.target import RequiredReadings
from builds.today.pages.today import load_today
from builds.verdict.engine import Verdict
from builds.verdict.facts.verdict import verdicts
from builds.work.models.entry_run import EntryRun
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from garage.facts.presence import member_windows
from garage.models import Entry, Garage, Membership

# Read on the level floor or by driving: nobody does either with a car that is in pieces.
ON_ITS_WHEELS = frozenset({"ride_height", "corner_weights", "camber", "caster", "toe_rear", "toe_front", "bump_steer"})


def wants_wheels(job: Job) -> bool:
    return not ON_ITS_WHEELS.isdisjoint(job.measures) or "driven" in job.kinds


@dataclass(frozen=True)
class Told:
    """What one place says of a car: the verdict's sentence, how many reasons, what becomes of it for its event.

    None where the place does not say; `makes_it` is a word of its own for *not known*.
    """

    verdict: str | None = None
    reasons: int | None = None
    makes_it: str | None = None
    outlook: str | None = None
    on_the_day: str | None = None


@dataclass(frozen=True)
class Whole:
    """What keeps a car from being whole, asked of the rows without the verdict."""

    state: str
    open_safety: tuple[str, ...] = ()
    open_points: tuple[str, ...] = ()
    in_pieces: tuple[str, ...] = ()
    ran: tuple[str, ...] = ()


@dataclass(frozen=True)
class Pieces:
    """A car (id) that is in pieces in a plan, from slot to slot; `ends` are the jobs that begin and end it."""

    car: str
    since: int
    until: int
    ends: tuple[str, str]


@dataclass(frozen=True)
class WallPlan:
    """`on_wheels` are the titles of jobs (id) that want a whole car."""

    problem: Problem
    answer: Plan
    pieces: tuple[Pieces, ...]
    on_wheels: dict[str, str]


@dataclass(frozen=True)
class Look:
    """One moment; `told` by car and place; `unexplained` moves on the plan's page that say no why.

    `done_stripped` are work and readings on a car in pieces.
    `wall` is the plan on the wall where it is another one than at the look before. `moved` are jobs that start
    another day or hour than in that one, but for cars that had to leave since; `caused` whether anything was written,
    or somebody was in, since it was made, or it is better.
    """

    at: datetime
    told: dict[str, dict[str, Told]] = field(default_factory=dict)
    unexplained: tuple[str, ...] = ()
    whole: dict[str, Whole] = field(default_factory=dict)
    wall: WallPlan | None = None
    done_stripped: tuple[str, ...] = ()
    moved: tuple[str, ...] = ()
    caused: bool = False


PLAN, ROWS, ALL = range(3)
"""How much is looked at: the plan alone, what people may not do and must not be told as well, all places."""


def look(me: Membership, at: datetime, before: Stored | None, *, wrote: bool, deep: int) -> Look:
    """`deep` is one of PLAN, ROWS and ALL."""
    garage, plan = me.garage, shown(me.garage)
    judged = verdicts(garage, at) if deep >= ROWS else {}
    page = load_plan_page(garage, at) if deep == ALL else None
    return Look(
        at,
        told=_told(me, at, judged, page) if page else {},
        unexplained=tuple(f"{move.title} ({move.what})" for move in page.moves if not move.why) if page else (),
        whole=_whole(garage, judged, at) if deep >= ROWS else {},
        wall=wall_plan(plan) if plan and not_yet_seen(before, plan) else None,
        done_stripped=tuple(_done_stripped(garage, at)) if deep >= ROWS else (),
        moved=tuple(moves(before, plan, but_for=_had_to_leave(garage, before, at))),
        caused=wrote or _has_cause(garage, before, plan, at),
    )


def _has_cause(garage: Garage, before: Stored | None, plan: Stored | None, at: datetime) -> bool:
    """Somebody was in since that plan was made, or a better one was found."""
    if before is None or plan is None:
        return False
    return somebody_was_in(garage, before.row.made_at, at) or is_better(before, plan)


def is_better(before: Stored, plan: Stored) -> bool:
    """Than the one before, which could still be followed as it was."""
    stood = as_it_was(PlanningCase.of(plan), before)
    return stood is not None and worth(plan.problem, plan.answer) < worth(plan.problem, stood)


def moves(before: Stored | None, after: Stored | None, but_for: Collection[str] = ()) -> dict[str, float]:
    """Jobs placed in both plans that start at another moment, by title, and how many days later.

    `but_for` are cars (id) whose work is left out.
    """
    if before is None or after is None or before.row == after.row:
        return {}
    return {
        after.jobs[job].label: days
        for job, place in after.placed.items()
        if job in before.placed and not after.jobs[job].started and after.jobs[job].vehicle not in but_for
        for days in [_days(before.clock.moment(before.placed[job].start), after.clock.moment(place.start))]
        if days
    }


def _had_to_leave(garage: Garage, before: Stored | None, at: datetime) -> set[str]:
    """Cars (id) that had to leave since that plan was made: they are planned for another event then, or for none."""
    entries = Entry.objects.in_garage(garage).select_related("event") if before else ()
    return {id_of("car", entry.vehicle_id) for entry in entries if before.row.made_at < entry.event.due_at <= at}


def _days(before: datetime, after: datetime) -> float:
    return (after - before).total_seconds() / 86400


def somebody_was_in(garage: Garage, since: datetime, until: datetime) -> bool:
    return since < until and any(member_windows(garage, since, until).values())


def _told(me: Membership, at: datetime, judged: dict[int, Verdict], plan_page: PlanPage) -> dict[str, dict[str, Told]]:
    fleet = fleet_of(me.garage, at)
    today = load_today(me, fleet)
    told = {car.name: {"verdict": Told(judged[car.pk].sentence, len(judged[car.pk].reasons))} for car in fleet.cars}
    for card in car_cards(fleet, {}):
        told[card.name]["key board"] = Told(card.sentence, len(card.reasons))
    for entered in today.entries:
        on_plan = entered.on_plan.sentence if entered.on_plan else None
        told[entered.car][f"today, {entered.event}"] = replace(_of_outlook(entered.outlook), on_the_day=on_plan)
    for row in plan_page.cars:
        told[row.entry.vehicle.name][f"plan, {row.entry.event}"] = _of_outlook(row.outlook)
    for entry in fleet.entries.values():
        rows = checklist_rows(entry, at)
        said = Told(rows.verdict.sentence, len(rows.reasons), outlook=rows.outlook or None, on_the_day=rows.on_plan)
        told[entry.vehicle.name][f"sheet, {entry.event}"] = said
    return told


def _of_outlook(said: Outlook) -> Told:
    return Told(makes_it={True: "yes", False: "no", None: "not known"}[said.makes_it], outlook=said.sentence)


def _whole(garage: Garage, judged: dict[int, Verdict], at: datetime) -> dict[str, Whole]:
    open_safety, points, in_pieces = {}, {}, {}
    for job in Job.objects.in_garage(garage).open().filter(rank="safety"):
        open_safety.setdefault(job.vehicle_id, []).append(job.title)
    for point in HoldPoint.objects.in_garage(garage).unsigned().select_related("job"):
        if point.job.state not in ("open", "dropped"):
            points.setdefault(point.job.vehicle_id, []).append(point.what)
    for hold in StationHold.objects.in_garage(garage).select_related("first", "last"):
        if _in_pieces(hold):
            in_pieces.setdefault(hold.first.vehicle_id, []).append(hold.last.title)
    found = (open_safety, points, in_pieces, _ran(garage, at))
    return {
        car.name: Whole(judged[car.pk].state, *(tuple(rows.get(car.pk, ())) for rows in found))
        for car in garage.vehicles.filter(gone_at=None)
    }


def _ran(garage: Garage, at: datetime) -> dict[int, list[str]]:
    """What each car (pk) whose wheel torque must be on record ran in since that was read."""
    ran = {}
    for must in RequiredReadings.objects.filter(vehicle__garage=garage):
        read = must.vehicle.readings.filter(kind="wheel_torque", struck_at=None).order_by("at").last()
        if read is None or "wheel_torque" not in must.kinds:
            continue
        over = EntryRun.objects.filter(ran=True, entry__vehicle=must.vehicle, entry__event__ends_at__lte=at)
        said = [run.entry.event.name for run in over if run.entry.event.ends_at > read.at]
        for span in Span.objects.filter(job__vehicle=must.vehicle, state="in_hand", until_at__gt=read.at):
            if "driven" in span.job.kinds and span.job_id != read.last_of_id:
                said.append(span.job.title)
        ran[must.vehicle_id] = said
    return ran


def _in_pieces(hold: StationHold) -> bool:
    """Hands were on what takes it apart, and what puts it together is not done; from spans, not from states."""
    return hold.last.state not in ("done", "signed") and (
        hold.first.state in ("done", "signed") or Span.objects.filter(job=hold.first, state="in_hand").exists()
    )


def _done_stripped(garage: Garage, at: datetime):
    """Work in hand now, or a reading of this moment, that wants a whole car, on one that is in pieces."""
    pieces = {}
    for hold in StationHold.objects.in_garage(garage).select_related("first__vehicle", "last"):
        if _in_pieces(hold):
            pieces.setdefault(hold.first.vehicle_id, set()).update({hold.first_id, hold.last_id})
    for job in Job.objects.in_garage(garage).in_hand().filter(vehicle__in=pieces):
        if wants_wheels(job) and job.pk not in pieces[job.vehicle_id]:
            yield f"“{job}” is in hand"
    # What was read in the very moment in which somebody else began to take the car apart was read before.
    began = Span.objects.filter(job__in=set().union(*pieces.values()), state="in_hand", from_at__lt=at)
    apart = set(began.values_list("job__vehicle", flat=True))
    taken = Reading.objects.filter(vehicle__in=apart, written_at=at, kind__in=ON_ITS_WHEELS)
    yield from (f"{reading.kind} of {reading.vehicle} was read" for reading in taken.select_related("vehicle"))


def not_yet_seen(before: Stored | None, plan: Stored) -> bool:
    return before is None or before.row != plan.row


def wall_plan(plan: Stored) -> WallPlan:
    """A plan with what must not happen in it: cars in pieces, and work that wants them whole."""
    rows = {job.pk: job for job in Job.objects.filter(pk__in=map(pk_of, plan.jobs))}
    placed = {place.id: place for place in plan.answer.placed}
    pieces = tuple(
        Pieces(
            hold.vehicle,
            placed[hold.start].start,
            placed[hold.until].end if hold.until in placed else plan.problem.slots,
            (hold.start, hold.until),
        )
        for hold in plan.problem.holds
        if hold.start in placed
    )
    on_wheels = {job: rows[pk_of(job)].title for job in plan.placed if wants_wheels(rows[pk_of(job)])}
    return WallPlan(plan.problem, plan.answer, pieces, on_wheels)
