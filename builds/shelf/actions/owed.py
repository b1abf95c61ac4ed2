"""What a robbed car is owed: opened when a part is taken, closed when it has it back."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db.models import Q, QuerySet, Sum

from builds.readings.engine.kinds_said import part_kinds
from builds.steps.actions import jobs, steps
from builds.work.models.job import TITLE_MOST, Job
from builds.work.models.owed import Owed
from builds.work.models.states import OPEN_STATES, State
from garage.actions.refused import Refused
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Membership
from parts.engine.words import amount_words
from parts.models import Move, Part

FIRST_GUESS = (60, 120, 240)
BACK = "the part is back"
TAKEN_AGAIN = "that the part was back is undone"


def owe(move: Move, *, by: Membership, at: datetime, job: Job | None) -> Owed:
    """A job for the car that it was taken from: safety if what it touches is."""
    part, vehicle = move.part, move.source.vehicle
    many = f"{amount_words(part.unit, move.quantity)} of " if move.quantity > 1 else ""
    goes = f" It went to {job.vehicle} for “{job}”." if job and job.vehicle_id != vehicle.pk else ""
    owed = jobs.add_after(
        vehicle,
        by=by,
        at=at,
        title=f"Owed: {many}{part}"[:TITLE_MOST],
        work=FIRST_GUESS,
        systems=list(part.touches),
        kinds=list(part_kinds(part.name, part.touches, unit=part.is_unit)),
        note=f"Taken off {vehicle} by {by}.{goes} Give it back, or fit another.",
    )
    return Owed.objects.create(vehicle=vehicle, move=move, job=owed)


def refuse_unlike(part: Part, job: Job) -> None:
    """What gives back brakes is of the brakes, whatever it is called: a mirror does not make a car whole."""
    owed = Owed.objects.open().filter(job=job).select_related("move__part").first()
    if owed is None or owed.move.part_id == part.pk:
        return
    lacks = SAFETY_SYSTEMS.intersection(owed.move.part.touches)
    if lacks and lacks.isdisjoint(part.touches):
        raise Refused(f"{part} does not stand in for {owed.move.part}: say what it is part of, or fit it alone.", "job")


def give_back(move: Move, *, by: Membership, at: datetime, job: Job | None, told: Mapping[str, Any]) -> bool:
    """What was fitted pays debts, the oldest first: their work is done, and waits to be signed. Whether it paid any.

    `told` is what is said of the finish of `job` itself.
    """
    paid = False
    debts = Owed.objects.open().filter(vehicle=move.target.vehicle_id)
    debts = debts.select_related("job", "move")
    ours = Q(move__part=move.part) | Q(job=job) if job else Q(move__part=move.part)
    for owed in debts.filter(ours).order_by("pk"):
        if _given(owed) < owed.move.quantity:
            continue
        owed.given_back = move
        owed.save(update_fields=["given_back"])
        if owed.job.state == State.DROPPED:
            steps.reopen(owed.job, by=by, at=at, reason=BACK)
        steps.finish(owed.job, by=by, at=at, **(told if owed.job == job else {}))
        paid = True
    return paid


def _given(owed: Owed) -> int:
    """How much of the part, or of another for the owed job, was fitted since it was taken."""
    fitted = Move.objects.standing().filter(verb="fit", target__vehicle=owed.vehicle_id, pk__gt=owed.move_id)
    ours = fitted.filter(Q(part=owed.move.part_id) | Q(use__job=owed.job_id))
    paid = Owed.objects.filter(
        vehicle=owed.vehicle_id, move__part=owed.move.part_id, given_back__pk__gt=owed.move_id
    ).exclude(pk=owed.pk)
    return _total(ours, "quantity") - _total(paid, "move__quantity")


def _total(rows: QuerySet[Any], field: str) -> int:
    return rows.aggregate(total=Sum(field))["total"] or 0


def owe_again(mistake: Move, *, by: Membership, at: datetime) -> None:
    """Debts that this fitting had helped to pay, the newest first, until the rest suffices."""
    paid = Owed.objects.filter(
        Q(given_back=mistake) | Q(move__part=mistake.part, given_back__pk__gt=mistake.pk),
        vehicle=mistake.target.vehicle_id,
    )
    for owed in paid.select_related("job", "move").order_by("-pk"):
        if _given(owed) >= owed.move.quantity:
            continue
        if owed.job.state not in OPEN_STATES:
            steps.reopen(owed.job, by=by, at=at, reason=TAKEN_AGAIN)
        owed.given_back = None
        owed.save(update_fields=["given_back"])
