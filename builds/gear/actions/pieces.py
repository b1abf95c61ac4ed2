"""Gear entered, changed, out of use and in use again, with what each does to its car."""

from copy import copy
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.gear.actions.life import carry_over
from builds.gear.actions.mounted import car_of, goes_off, goes_on
from builds.gear.engine import changed_words, lasts_longer
from builds.gear.facts.book import GearBook, gear_book
from builds.gear.models import GearChange
from builds.work.models.job import Job
from garage.access import OWNER
from garage.actions import gear as actions
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.models import Garage, Gear, Membership

# What readings were taken with is judged by these.
OF_INSTRUMENT = ("name", "printed_on", "meaning", "vehicle", "member")


@transaction.atomic
def add_piece(garage: Garage, *, by: Membership, at: datetime, **fields: Any) -> tuple[Gear, list[Job]]:
    """With the work that it was: where one of its kind came off the car before, it is the one that goes on."""
    _refuse_car(by, fields)
    gear = actions.add(garage, at=at, **fields)
    return gear, _jobs(goes_on(gear, by=by, at=at, new=True))


def _refuse_car(by: Membership, fields: dict[str, Any]) -> None:
    if car := fields.get("vehicle"):
        work_or_refuse(by, car, "whose")


def _jobs(*work: Job | None) -> list[Job]:
    return [job for job in work if job is not None]


@transaction.atomic
def change_piece(gear: Gear, *, by: Membership, at: datetime, all_along: bool = False, **fields: Any) -> list[Job]:
    """The work that it was. A crash on its car goes with it to another car, or under another kind.

    What readings were taken with keeps its name and its date, by which they are judged, but for the owner; those taken
    before he changed it are judged by what stood there. What runs out keeps its date too. What is bolted to another
    car, or as another kind, came off and went on. Unless the owner says that it was so `all_along`.
    """
    _refuse_car(by, fields)
    was, now = copy(gear), _changed(gear, fields)
    _refuse(was, now, fields, by, at, all_along=all_along)
    book = gear_book(gear.garage, at, ())
    if (crash := book.crash_of(gear)) and not gear.struck_by_hand:
        fields |= {"struck_at": crash.at, "struck_note": book.why_struck(gear)[:200]}
    if not all_along:
        fields |= _remembered(was, now, book, at)
    moved = not all_along and (car_of(was), was.kind) != (car_of(now), now.kind)
    off = goes_off(was, by=by, at=at) if moved else None
    actions.change(gear, **fields)
    on = goes_on(gear, by=by, at=at) if moved else None
    if words := changed_words(_said(was), _said(gear)):
        _note(gear, words, by=by, at=at)
    return _jobs(off, on)


def _changed(gear: Gear, fields: dict[str, Any]) -> Gear:
    changed = copy(gear)
    for name, value in fields.items():
        setattr(changed, name, value)
    return changed


def _remembered(was: Gear, now: Gear, book: GearBook, at: datetime) -> dict[str, Any]:
    """What was measured with it is judged by how it stood; what it has done on a car goes with it to another."""
    life, told = book.lives.get(was.pk), was.as_instrument()
    if life and was.vehicle_id and was.vehicle_id != now.vehicle_id:
        carry_over(was, book.used(was.pk, was.vehicle_id, life, None).runs, at=at)
    return {"stood": [*was.stood, {**told, "until": at.isoformat()}]} if told and told != now.as_instrument() else {}


def _refuse(was: Gear, now: Gear, fields: dict[str, Any], by: Membership, at: datetime, *, all_along: bool) -> None:
    if by.role == OWNER:
        return
    if all_along:
        raise Refused("Only the owner says that it was so already.", "all_along")
    if was.is_instrument and any(getattr(was, name) != getattr(now, name) for name in OF_INSTRUMENT if name in fields):
        raise Refused(f"Only the owner changes the name or the date of {was}: readings are judged by them.")
    if lasts_longer(was.item(), now.item(), _day(was, at)):
        another = "Where another is in its place, take this one out of use and enter that."
        raise Refused(f"Only the owner says that {was} is good for longer. {another}", "printed")


def _day(gear: Gear, at: datetime) -> date:
    return at.astimezone(ZoneInfo(gear.garage.time_zone)).date()


def _said(gear: Gear) -> dict[str, str]:
    return {
        "kind": gear.get_kind_display(),
        "name": gear.name,
        "where it belongs": str(gear.vehicle or gear.member or "the garage"),
        "standard": gear.standard_label,
        "date": f"{gear.get_meaning_display()} {gear.printed_words}" if gear.printed_on else "",
        "when it was made": gear.made_words,
    }


@transaction.atomic
def retire_piece(gear: Gear, *, because: str, by: Membership, at: datetime) -> list[Job]:
    """Out of use it is off its car: the work that it was."""
    off = goes_off(gear, by=by, at=at)
    actions.retire(gear, because=because, at=at)
    _note(gear, f"Out of use: {because}", by=by, at=at)
    return _jobs(off)


@transaction.atomic
def use_again(gear: Gear, *, by: Membership, at: datetime) -> list[Job]:
    actions.use_again(gear)
    _note(gear, "In use again", by=by, at=at)
    return _jobs(goes_on(gear, by=by, at=at))


def _note(gear: Gear, words: str, *, by: Membership, at: datetime) -> None:
    GearChange.objects.create(gear=gear, by=by, at=at, words=words[: GearChange.LONGEST])
