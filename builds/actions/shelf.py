"""Parts moved, with what follows: what a robbed car is owed, and when it has it back."""

from datetime import datetime

from django.db import transaction

from builds.actions import jobs, steps
from builds.actions.spans import turn
from builds.engine.ranks import rank_for
from builds.models import Job, Owed, PartUse
from builds.models.states import OPEN_STATES
from garage.actions.refused import Refused
from garage.models import Membership, Vehicle
from parts.actions import stock
from parts.models import Move, Part, Place

FIRST_GUESS = (60, 120, 240)
PUT_BACK = "the part was put back"
TAKEN_AGAIN = "that the part was back is undone"


def robs(source: Place, job: Job | None) -> bool:
    """Whether taking a part from there leaves a car short: not for a job on that same car."""
    return source.kind == Place.Kind.CAR and (job is None or job.vehicle_id != source.vehicle_id)


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
) -> Move:
    """Move a part; off a donor car it opens what that car is owed, onto a car it closes it."""
    if job is not None and job.vehicle.garage_id != part.garage_id:
        raise Refused("The job must be in the same garage.")
    if verb == "fit":
        why = _fit_reason(part, why, unknown_because)
    move = stock.move(part, verb, quantity, source, target, by=by, at=at, why=why)
    if job is not None:
        PartUse.objects.create(job=job, move=move)
    if verb == "pull" and robs(source, job):
        _owe(move, source.vehicle, by=by, at=at, job=job)
    if verb == "fit":
        _give_back(move, target.vehicle, by=by, at=at)
    return move


def _fit_reason(part: Part, why: str, unknown_because: str) -> str:
    """A part of unknown history goes on a car only with a written reason; scrap never does."""
    if part.condition == Part.Condition.SCRAP:
        raise Refused(f"{part} is scrap: it does not go on a car.")
    if part.condition == Part.Condition.REPAIR:
        raise Refused(f"{part} is to be repaired first.")
    if part.condition == Part.Condition.UNKNOWN and not unknown_because.strip():
        raise Refused(f"Nobody knows the history of {part}: write down why it may be fitted.")
    return "; ".join(words for words in (why, unknown_because.strip()) if words)[:200]


def _owe(move: Move, vehicle: Vehicle, *, by: Membership, at: datetime, job: Job | None) -> Owed:
    part = move.part
    goes = f" It went to {job.vehicle} for {job}." if job else ""
    owed = jobs.add(
        vehicle,
        by=by,
        at=at,
        title=f"Owed: {part}"[:120],
        work=FIRST_GUESS,
        systems=list(part.systems),
        rank=rank_for(part.systems) or Job.Rank.NEEDED,
        note=f"Taken off {vehicle} by {by}.{goes} Give it back, or fit another.",
    )
    return Owed.objects.create(vehicle=vehicle, move=move, job=owed)


def _give_back(move: Move, vehicle: Vehicle, *, by: Membership, at: datetime) -> None:
    """The same part back on its car: the work of fitting it is done, and waits to be signed."""
    owed = Owed.objects.open().filter(vehicle=vehicle, move__part=move.part).first()
    if owed is not None:
        steps.finish(owed.job, by=by, at=at)
        owed.given_back = move
        owed.save(update_fields=["given_back"])


@transaction.atomic
def undo(mistake: Move, *, by: Membership, at: datetime) -> Move:
    """Write the move that reverses a mistake, and take back what it had opened."""
    if at - mistake.at > stock.UNDO_FOR:
        raise Refused("It was moved too long ago to undo: move it again instead.")
    undone = stock.reverse(mistake, by=by, at=at)
    opened = Owed.objects.filter(move=mistake).select_related("job").first()
    if opened is not None and opened.job.state in OPEN_STATES:
        turn(opened.job, "drop", by=by, at=at, note=PUT_BACK, state_note=PUT_BACK)
    closed = Owed.objects.filter(given_back=mistake).select_related("job").first()
    if closed is not None:
        steps.reopen(closed.job, by=by, at=at, reason=TAKEN_AGAIN)
        closed.given_back = None
        closed.save(update_fields=["given_back"])
    return undone
