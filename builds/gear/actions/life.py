"""How long gear lasts by use, and renewing it."""

from collections.abc import Mapping
from datetime import datetime

from django.db import transaction

from builds.gear.models import Renewal, UseLife
from builds.steps.actions import jobs
from builds.steps.facts.by_words import told_new
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.models import Gear, Membership

# What renewing a piece of each kind touches, and the kinds of work that it is; of others what it is called says it.
RENEWED = {
    "belts": (["restraint"], ["seat_or_belt_moved"]),
    "seat": (["seat"], ["seat_work", "seat_or_belt_moved"]),
    "tyres": (["wheels"], ["wheel_off", "tyre_or_pressure"]),
    "fuel_cell": (["fuel"], ["fuel_line", "mass_unit_moved"]),
    "extinguisher": (["fire"], ["extinguisher_used"]),
}
# Minutes goes well, likely, fights back: invented.
RENEWING = (20, 45, 120)
ENDS = ("runs", "minutes", "months")
ON_NO_CAR = "Only what is on a car wears by its runs: say on which car it is."


def _refuse_longer(gear: Gear, lasts: Mapping[str, int | None], by: Membership) -> None:
    life = UseLife.objects.filter(gear=gear).first()
    if by.role == OWNER or life is None:
        return
    for name in ENDS:
        was, now = getattr(life, name), lasts.get(name)
        if was is not None and (now is None or now > was):
            raise Refused(f"Only the owner says that {gear} lasts longer.", "hours" if name == "minutes" else name)


@transaction.atomic
def set_life(gear: Gear, *, since: datetime, by: Membership, at: datetime, **lasts: int | None) -> None:
    """How long it lasts by use from `since`; nothing that ends it is no life by use any more.

    That it lasts longer than was written down is the owner's alone to say.
    """
    if gear.vehicle_id is None:
        raise Refused(ON_NO_CAR)
    if since > at:
        raise Refused("That time is still to come: choose one that has passed.", "since")
    _refuse_longer(gear, lasts, by)
    if not any(lasts.get(name) for name in ENDS):
        UseLife.objects.filter(gear=gear).delete()
        return
    UseLife.objects.update_or_create(gear=gear, defaults={**lasts, "since": since})


def carry_over(gear: Gear, runs: int, *, at: datetime) -> None:
    """What it has done on the car that it comes off goes with it."""
    UseLife.objects.filter(gear=gear).update(moved_at=at, runs_before=runs)


@transaction.atomic
def plan_renewal(gear: Gear, *, by: Membership, at: datetime) -> Job:
    """A job that renews it: once that is finished, the piece counts as new."""
    if gear.vehicle is None:
        raise Refused(ON_NO_CAR)
    if not UseLife.objects.filter(gear=gear).exists():
        raise Refused("Nothing says how long it lasts by use: write that down first.")
    if Renewal.objects.filter(gear=gear, job__state__in=OPEN_STATES).exists():
        raise Refused(f"A job to renew {gear} is open already.")
    title, known = f"Renew: {gear}", RENEWED.get(gear.kind, ([], []))
    told = told_new(gear.garage_id, title, *known)
    job = jobs.add(gear.vehicle, by=by, at=at, title=title, work=RENEWING, **told.fields)
    Renewal.objects.create(gear=gear, job=job)
    return job
