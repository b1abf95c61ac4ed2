"""Parts moved, with what follows: what a robbed car is owed, and when it has it back."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction

from builds.needs.actions import fitting, needs
from builds.shelf.actions import fitted, owed
from builds.steps.facts.looks import for_safety
from builds.work.actions import turn
from builds.work.models.job import Job
from builds.work.models.owed import Owed, PartUse
from builds.work.models.states import BEGINNABLE, OPEN_STATES
from garage.actions.hands import pull_or_refuse, work_or_refuse
from garage.actions.refused import Refused
from garage.models import Garage, Membership, Vehicle
from parts.actions import parts, stock
from parts.actions.places import car_place, house_place, someone_place
from parts.engine.ledger import AT_HAND
from parts.models import Move, Part, Place
from parts.models.place import WALK_ORDER

PUT_BACK = "the part was put back"
# What came off a car longer ago was off it: it goes back as work, not as a slip. Our own choice, no source.
OFF_UNDO_FOR = timedelta(minutes=30)
# Where a verb leads when nobody says: the garage's own place of that kind.
LEADS_TO = {"pull": "bench", "repair": "repair", "scrap": "scrap", "take_off": "scrap"}


def robs(part: Part, source: Place, job: Job | None) -> bool:
    """Whether taking it from there leaves a car short: not for a job on that same car that tells of it itself."""
    return source.kind == Place.Kind.CAR and not (_own(source, job) and fitted.tells(job, part))


def _own(source: Place, job: Job | None) -> bool:
    return job is not None and source.vehicle_id == job.vehicle_id


def _refuse_hands(by: Membership, source: Place, target: Place, job: Job | None = None) -> None:
    """Onto a car, and off it for work of its own, by whoever works on it; off it for anything else is pulling."""
    if target.vehicle:
        work_or_refuse(by, target.vehicle)
    if source.vehicle:
        (work_or_refuse if _own(source, job) else pull_or_refuse)(by, source.vehicle)


def _refuse_job(part: Part, job: Job | None, target: Place) -> None:
    if job is None:
        return
    if job.vehicle_id != target.vehicle_id:
        raise Refused(f"“{job}” is a job on {job.vehicle}, not on {target}.", "job")
    owed.refuse_unlike(part, job)


def _off(move: Move, job: Job | None, *, by: Membership, at: datetime) -> None:
    """What comes off a car is owed to it, or hands are on the job of its own that it comes off for."""
    if robs(move.part, move.source, job):
        owed.owe(move, by=by, at=at, job=job)
    elif job is not None and _own(move.source, job) and for_safety(job) and job.state in BEGINNABLE:
        turn(job, "start", by=by, at=at, crew=[by], finished_at=None)
        turn(job, "stop", by=by, at=at)


@transaction.atomic
def carry(
    part: Part,
    verb: str,
    quantity: int,
    source: Place,
    target: Place,
    *,
    by: Membership,
    at: datetime,
    why: str = "",
    job: Job | None = None,
    unknown_because: str = "",
    fit_because: str = "",
    told: Mapping[str, Any] | None = None,
    all_along: bool = False,
) -> Move:
    """Move a part; off a donor car it opens what that car is owed, onto a car it closes it, or is work of its own.

    `told` is what is said of the job's finish, where the part pays what the job owes; `all_along` that it was on
    the car already, and nothing was opened for it.
    """
    if job is not None and job.vehicle.garage_id != part.garage_id:
        raise Refused("The job must be in the same garage.", "job")
    _refuse_hands(by, source, target, job)
    if all_along:
        why = fitted.all_along(why, job, by)
    if verb == "fit":
        why = fitting.reasons(
            part,
            job,
            target.vehicle,
            why=why,
            unknown_because=unknown_because,
            fit_because=fit_because,
        )
        _refuse_job(part, job, target)
    elif verb == "pull" and job is not None:
        fitting.refuse_misfit(part, job)
    move = stock.move(part, verb, quantity, source, target, by=by, at=at, why=why)
    if job is not None:
        PartUse.objects.create(job=job, move=move)
        if verb == "pull":
            needs.pulled(move, job)
        needs.settle(job, part, at=at)
    _off(move, job, by=by, at=at)
    paid = verb == "fit" and owed.give_back(move, by=by, at=at, job=job, told=told or {})
    if verb == "fit" and not (paid or all_along or fitted.tells(job, part)):
        fitted.write(move, by=by, at=at, use=job is None)
    return move


@transaction.atomic
def write_down(
    garage: Garage,
    *,
    by: Membership,
    at: datetime,
    quantity: int,
    target: Place | None = None,
    new_place: str = "",
    job: Job | None = None,
    on_bench: bool = False,
    **fields: Any,
) -> tuple[Part, Place | None]:
    """A part that nobody had written down: received where it lies, and wanted by the job that it is for.

    A new place is a shelf, unless one is called so; on the bench it is where nothing else is said.
    """
    part = parts.add(garage, at=at, **fields)
    place = target or (_called(garage, new_place) if new_place else None)
    if place is None and on_bench:
        place = house_place(garage, Place.Kind.BENCH)
    if place is not None:
        carry(part, "receive", quantity, house_place(garage, Place.Kind.SUPPLIER), place, by=by, at=at)
    if job is not None:
        needs.ask_for(job, part, quantity=quantity, at=at)
    return part, place


def _called(garage: Garage, name: str) -> Place:
    known = Place.objects.in_garage(garage).filter(kind__in=AT_HAND, name__iexact=name).first()
    return known or parts.add_place(garage, kind=Place.Kind.SHELF, name=name, walk_order=WALK_ORDER)


@transaction.atomic
def carry_out(
    part: Part,
    verb: str,
    *,
    source: Place | None = None,
    target: Place | None = None,
    car: Vehicle | None = None,
    someone: str = "",
    **more: Any,
) -> Move:
    """As `carry`, between ends as a person names them: a car, a name, or nothing where it is plain.

    `more` goes to `carry` as it is.
    """
    if car is not None:
        target = car_place(car)
    elif someone:
        target = someone_place(part.garage, someone)
    source = source or house_place(part.garage, Place.Kind.SUPPLIER)
    target = target or house_place(part.garage, LEADS_TO[verb])
    return carry(part, verb, source=source, target=target, **more)


def undo_for(move: Move) -> timedelta:
    """How long it can be undone."""
    return OFF_UNDO_FOR if move.source.vehicle_id else stock.UNDO_FOR


@transaction.atomic
def undo(mistake: Move, *, by: Membership, at: datetime) -> Move:
    """Write the move that reverses a mistake, and take back what it had opened."""
    if at - mistake.at > undo_for(mistake):
        raise Refused("It was moved too long ago to undo: move it again instead.")
    for place in (mistake.source, mistake.target):
        if place.vehicle and mistake.by_id != by.pk:  # his own mistake anybody undoes
            work_or_refuse(by, place.vehicle)
    undone = stock.reverse(mistake, by=by, at=at)
    opened = Owed.objects.filter(move=mistake).select_related("job").first()
    if opened is not None and opened.job.state in OPEN_STATES:
        turn(opened.job, "drop", by=by, at=at, note=PUT_BACK, state_note=PUT_BACK)
    if mistake.verb == "fit":
        owed.owe_again(mistake, by=by, at=at)
        fitted.take_back(mistake, by=by, at=at)
    use = PartUse.objects.filter(move=mistake).select_related("job").first()
    if use is not None:
        needs.settle(use.job, mistake.part, at=at)
        needs.taken_back(mistake, use.job)
    return undone
