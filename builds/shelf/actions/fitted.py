"""Fitting that no job tells of is work all the same: a job of its own says so, done, or to be said what it touched."""

from datetime import datetime

from builds.readings.engine.kinds_said import part_kinds
from builds.readings.engine.kinds_touch import touched
from builds.steps.actions import jobs, steps
from builds.steps.engine.by_words import beside
from builds.steps.engine.opened import HAPPENED
from builds.steps.facts.looks import for_safety
from builds.steps.facts.opened import asks
from builds.work.actions import turn
from builds.work.engine.ranks import rank_for
from builds.work.models.job import TITLE_MOST, Job
from builds.work.models.owed import PartUse
from builds.work.models.states import FINISHED_STATES, State
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.engine.cleaning_said import SKIN
from garage.models import Membership
from parts.models import Move, Part

FIRST_GUESS = (15, 30, 60)
MOVED = "mass_unit_moved"
# What goes on over all else, and opens nothing.
SURFACE = SKIN | {"fluids"}
SAY_WHAT = "Nobody has said what it is part of: say what it touches, and what was opened to fit it."
TITLE = "Fitted: "
UNDONE = "that it was fitted is undone"
ALL_ALONG = "It was on the car already"


def all_along(why: str, job: Job | None, by: Membership) -> str:
    """The note of such a move. Whoever says that it was on already says that nothing was opened for it."""
    if job is not None:
        raise Refused("What was on the car already is fitted for no job.", "all_along")
    if by.role != OWNER:
        raise Refused("Only the owner says that it was on the car already.", "all_along")
    return "; ".join(filter(None, [ALL_ALONG, why]))


def tells(job: Job | None, part: Part) -> bool:
    """Whether the job itself says what it opened: one for safety does, and any of a part that hurts nobody.

    Where the weights of the car change with the part, such a job says so, or came from a recipe that does.
    """
    if job is None or for_safety(job):
        return job is not None
    kinds = part_kinds(part.name, part.touches, unit=part.is_unit)
    moved = MOVED in kinds and not (job.recipe or MOVED in job.kinds)
    return rank_for(touched(part.touches, kinds)) is None and not moved


def write(move: Move, *, by: Membership, at: datetime, use: bool) -> Job:
    """What mostly goes with it is opened from then on, as by a part that comes off; somebody else looks at it.

    Where neither the part nor its name says what it is part of, or what is opened for it, the job stays open until
    somebody does. With `use` the move is noted as made for it.
    """
    part, vehicle = move.part, move.target.vehicle
    said = beside(part.name, part.systems, ())
    opened = part_kinds(part.name, said.systems, unit=part.is_unit)
    kinds = [kind for kind in opened if kind not in HAPPENED]
    job = jobs.add(
        vehicle,
        by=by,
        at=at,
        title=_title(part),
        work=FIRST_GUESS,
        systems=list(said.systems),
        kinds=kinds,
        kinds_likely=not (kinds or SURFACE.issuperset(said.systems)),
        note="" if said.systems else SAY_WHAT,
    )
    if use:
        PartUse.objects.create(job=job, move=move)
    if not asks(job):
        steps.finish(job, by=by, at=at)
    return job


def written_for(move: Move) -> Job | None:
    """The job that this fitting was written down as, if it was."""
    if move.verb != "fit":
        return None
    same = Job.objects.filter(vehicle=move.target.vehicle_id, made_at=move.at, title__startswith=TITLE)
    return same.filter(parts_used__move=move).first() or same.filter(title=_title(move.part)).first()


def _title(part: Part) -> str:
    return f"{TITLE}{part}"[:TITLE_MOST]


def take_back(move: Move, *, by: Membership, at: datetime) -> None:
    """Of a fitting that was undone: its work is dropped, and where hands were on it the owner answers for the car."""
    job = written_for(move)
    if job is None or job.state == State.DROPPED:
        return
    if job.state in FINISHED_STATES:
        steps.reopen(job, by=by, at=at, reason=UNDONE)
        turn(job, "start", by=by, at=at, crew=[by])  # whoever takes it off again has his hands on it
    turn(job, "drop", by=by, at=at, note=UNDONE, state_note=UNDONE)
