"""What a job must get before it can be done: asked for, expected, there."""

from datetime import date, datetime
from typing import Any

from django.db import transaction

from builds.needs.actions import fitting
from builds.needs.facts.meant import meant_by, meant_by_pull
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import PartUse
from builds.work.models.states import FINISHED_STATES, OPEN_STATES
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.models import Membership
from parts.models import Move, Part, Place


@transaction.atomic
def add(
    job: Job,
    *,
    at: datetime,
    what: str,
    quantity: int = 1,
    supplier: str = "",
    expected_on: date | None = None,
    lead_days: int | None = None,
    cost_minor: int | None = None,
    part: Part | None = None,
    fit: list[dict[str, str]] | None = None,
) -> Need:
    """The job waits for it from the day it is expected; without a day it waits for nothing."""
    if job.state not in OPEN_STATES:
        raise Refused(f"“{job}” is {job.get_state_display()}: open it again first.")
    if part is not None and part.garage_id != job.vehicle.garage_id:
        raise Refused("The part must be in the same garage.")
    return Need.objects.create(
        job=job,
        part=part,
        what=what,
        quantity=quantity,
        supplier=supplier,
        expected_on=expected_on,
        lead_days=lead_days,
        cost_minor=cost_minor,
        asked_at=at,
        fit=fit or [],
    )


def _refuse_over(need: Need, by: Membership, fields: dict[str, Any]) -> None:
    """What a job that is over asked for says whether all of it was fitted."""
    part = fields.get("part", need.part)
    same = fields.get("quantity", need.quantity) >= need.quantity and (need.part is None or part == need.part)
    if by.role != OWNER and need.job.state in FINISHED_STATES and not same:
        raise Refused(f"“{need.job}” is over: only the owner says that it needed less, or another part.")


@transaction.atomic
def change(need: Need, *, by: Membership, **fields: Any) -> None:
    """Raises Refused."""
    _refuse_over(need, by, fields)
    for name, value in fields.items():
        setattr(need, name, value)
    need.save(update_fields=list(fields))


def name_part(need: Need, part: Part, *, by: Membership) -> None:
    """Which part of the shelf it is; refused when it does not fit and lives hang on it."""
    if part.garage_id != need.job.vehicle.garage_id:
        raise Refused("The part must be in the same garage.", "part")
    fitting.refuse_naming(need, part)
    change(need, by=by, part=part)


def got(need: Need, *, by: Membership, at: datetime) -> None:
    """It is there; what was there before keeps its moment. After its job only the owner says that it went on."""
    if by.role != OWNER and need.got_at is None and need.job.state in FINISHED_STATES:
        raise Refused(f"“{need.job}” is over without {need}: only the owner says that it was fitted after all.")
    _here(need, at=at)


def _here(need: Need, *, at: datetime) -> None:
    Need.objects.filter(pk=need.pk, got_at=None).update(got_at=at)


def not_here(need: Need) -> None:
    """It turned out to be missing after all."""
    Need.objects.filter(pk=need.pk).update(got_at=None)


def remove(need: Need, *, by: Membership) -> None:
    """What a job that is over never got is looked for, not struck out."""
    if by.role != OWNER and need.job.state in FINISHED_STATES:
        raise Refused(f"“{need.job}” is over: only the owner says that it did not need {need}.")
    Need.objects.filter(pk=need.pk).delete()


def ask_for(job: Job, part: Part, *, quantity: int, at: datetime) -> None:
    """What the job wants by that name in words alone is this part; else it is one thing more that it wants."""
    _ask_for(job, part, meant_by(job, part) if job.state in OPEN_STATES else None, quantity=quantity, at=at)


def _ask_for(job: Job, part: Part, meant: Need | None, *, quantity: int, at: datetime) -> None:
    if meant is None:
        add(job, at=at, what=part.name, quantity=quantity, part=part)
    else:
        Need.objects.filter(pk=meant.pk).update(part=part)


def pulled(move: Move, job: Job) -> None:
    """What is pulled for a job is what it asked for, or needs without having asked, and lies there for it."""
    asked = Need.objects.of(job).filter(part=move.part)
    if job.state in OPEN_STATES and not asked.exists():
        _ask_for(job, move.part, meant_by_pull(job, move.part), quantity=move.quantity, at=move.at)


def taken_back(move: Move, job: Job) -> None:
    """Nobody asked for it but that pull: so many of it, by its name, in the same moment."""
    own = {"asked_at": move.at, "quantity": move.quantity, "what": move.part.name}
    Need.objects.of(job).filter(part=move.part, got_at=None, **own).delete()


@transaction.atomic
def settle(job: Job, part: Part, *, at: datetime) -> None:
    """What was brought from the shelf answers the job's needs of that part, in their order.

    What was said to be here by hand stays so.
    """
    uses = PartUse.objects.of(job, part).select_related("move__source")
    brought = _brought([use.move for use in uses.standing()])
    moments = {use.move.at for use in uses}
    for need in Need.objects.of(job).filter(part=part).order_by("pk"):
        covered = brought >= need.quantity
        if covered:
            brought -= need.quantity
        if covered and need.got_at is None:
            _here(need, at=at)
        elif not covered and need.got_at in moments:
            not_here(need)


def _brought(moves: list[Move]) -> int:
    """How much was brought to the job; what was pulled for it and then fitted counts once."""
    pulled = sum(move.quantity for move in moves if move.verb == "pull")
    fitted = [move for move in moves if move.verb == "fit"]
    straight = sum(move.quantity for move in fitted if move.source.kind != Place.Kind.BENCH)
    return max(pulled + straight, sum(move.quantity for move in fitted))
