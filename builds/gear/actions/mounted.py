"""Gear that is bolted to a car, coming off and going on: work as any other, that somebody else looks at."""

from collections.abc import Collection
from datetime import datetime
from typing import Any

from builds.gear.actions.life import RENEWED
from builds.gear.engine import CAME_OFF, fits_another
from builds.steps.actions import jobs, steps
from builds.work.actions import turn
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES, STARTED_STATES, State
from garage.models import Gear, Membership, Vehicle

FITTING = (20, 45, 120)
"""Minutes goes well, likely, fights back: invented."""


def car_of(gear: Gear) -> Vehicle | None:
    """The car that it is bolted to."""
    return gear.vehicle if gear.kind in RENEWED and gear.retired_at is None else None


def goes_off(gear: Gear, *, by: Membership, at: datetime) -> Job | None:
    """What comes off a car is missing from it until another goes on, unless there is another; before it is changed."""
    car = car_of(gear)
    if car is None or _is_told(car, gear.kind):
        return None
    others = Gear.objects.in_use().filter(vehicle=car, kind=gear.kind).exclude(pk=gear.pk)
    if others.exists():
        return _done(car, f"Taken off: {gear}", gear.kind, by=by, at=at)
    job = _write(car, fits_another(gear.kind), gear.kind, by=by, at=at, note=f"{gear}{CAME_OFF} {car}.")
    turn(job, "start", by=by, at=at, crew=[by])
    turn(job, "stop", by=by, at=at, state_note=f"{gear}{CAME_OFF}")
    return job


def goes_on(gear: Gear, *, by: Membership, at: datetime, new: bool = False) -> Job | None:
    """What goes on a car ends the work of the one that came off; after it is changed.

    A `new` piece, only now written down, was on the car all along where none of its kind ever came off.
    """
    car = car_of(gear)
    if car is None:
        return None
    asked = Job.objects.filter(vehicle=car, title=fits_another(gear.kind)).order_by("-pk").first()
    if asked is not None and asked.state in OPEN_STATES:
        steps.finish(asked, by=by, at=at)
        return asked
    if (asked is None or asked.state != State.DROPPED) if new else _is_told(car, gear.kind):
        return None
    return _done(car, f"Fitted: {gear}", gear.kind, by=by, at=at)


def _is_told(car: Vehicle, kind: str) -> bool:
    """Whether work that was begun on what it touches is not over: that says itself what came off and went on."""
    systems, _ = RENEWED[kind]
    begun = Job.objects.filter(vehicle=car, state__in=STARTED_STATES).values_list("systems", flat=True)
    return any(_shares(said, systems) for said in begun)


def _shares(said: Collection[str], systems: Collection[str]) -> bool:
    return not set(said).isdisjoint(systems)


def _write(car: Vehicle, title: str, kind: str, *, by: Membership, at: datetime, **more: Any) -> Job:
    systems, kinds = RENEWED[kind]
    return jobs.add(car, by=by, at=at, title=title, work=FITTING, systems=list(systems), kinds=list(kinds), **more)


def _done(car: Vehicle, title: str, kind: str, *, by: Membership, at: datetime) -> Job:
    job = _write(car, title, kind, by=by, at=at)
    steps.finish(job, by=by, at=at)
    return job
