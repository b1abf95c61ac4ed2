"""Gear coming, going, struck and passed; what an event asks of it; what a car must have."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from garage.actions.refused import Refused
from garage.engine.gear import AS_PRINTED, KINDS, USUAL_KINDS, DateRule
from garage.engine.reasons import says_why
from garage.models import Event, Garage, Gear, GearRule, Membership, NeededGear, Vehicle


@transaction.atomic
def add(garage: Garage, *, at: datetime, struck: bool = False, **fields: Any) -> Gear:
    """Write a piece down; `struck` when it has already been in a crash."""
    return Gear.objects.create(garage=garage, made_at=at, struck_at=at if struck else None, **fields)


@transaction.atomic
def change(gear: Gear, **fields: Any) -> None:
    for name, value in fields.items():
        setattr(gear, name, value)
    gear.save(update_fields=list(fields))  # a crash told meanwhile stays


@transaction.atomic
def retire(gear: Gear, *, because: str, at: datetime) -> None:
    """Out of use: it counts for nothing and its history stays."""
    gear.retired_at, gear.retired_because = at, because
    gear.save(update_fields=["retired_at", "retired_because"])


@transaction.atomic
def use_again(gear: Gear) -> None:
    gear.retired_at, gear.retired_because = None, ""
    gear.save(update_fields=["retired_at", "retired_because"])


@transaction.atomic
def strike(gear: Gear, *, note: str, at: datetime) -> None:
    """It went through a crash: out, whatever its date says."""
    gear.struck_at, gear.struck_note = at, note
    gear.passed_at, gear.passed_by, gear.passed_because = None, None, ""  # a word for earlier ones
    gear.save(update_fields=["struck_at", "struck_note", "passed_at", "passed_by", "passed_because"])


@transaction.atomic
def let_pass(gear: Gear, *, because: str, by: Membership, at: datetime) -> None:
    """An owner takes a struck piece as good again, and says why."""
    if by.role != Membership.Role.OWNER:
        raise Refused("Only an owner says that struck gear is good.")
    if not says_why(because):
        raise Refused("Say why it is good: who looked, or why it was not in the crash.")
    gear.passed_at, gear.passed_by, gear.passed_because = at, by, because.strip()
    gear.save(update_fields=["passed_at", "passed_by", "passed_because"])


@transaction.atomic
def set_rules(event: Event, rules: Mapping[str, DateRule]) -> None:
    """The event's rules by kind; what goes as printed needs no row."""
    GearRule.objects.filter(event=event).delete()
    GearRule.objects.bulk_create(
        GearRule(event=event, kind=kind, way=rule.way, years=rule.years)
        for kind, rule in rules.items()
        if rule != AS_PRINTED
    )


def rules_of_organiser(event: Event) -> dict[str, DateRule]:
    """What that organiser's latest other event asked, by kind; empty when there is none."""
    if not event.organiser:
        return {}
    rows = list(GearRule.objects.of_organiser(event))
    return {rule.kind: rule.rule for rule in rows if rule.event_id == rows[0].event_id}


@transaction.atomic
def copy_rules(event: Event) -> bool:
    """Take over the rules of the organiser's last event; False when there are none."""
    rules = rules_of_organiser(event)
    if rules:
        set_rules(event, rules)
    return bool(rules)


@transaction.atomic
def need(vehicle: Vehicle, *, kinds: list[str], by: Membership, at: datetime) -> None:
    """The kinds that a car must have; with none nobody has said."""
    if not set(kinds) <= set(KINDS):
        raise Refused("That is no kind of gear.")
    if not kinds:
        NeededGear.objects.filter(vehicle=vehicle).delete()
        return
    NeededGear.objects.update_or_create(
        vehicle=vehicle,
        defaults={
            "kinds": [kind for kind in KINDS if kind in kinds],
            "chosen_by": by,
            "chosen_at": at,
        },
    )


def need_usual(vehicle: Vehicle, *, by: Membership, at: datetime) -> None:
    need(vehicle, kinds=list(USUAL_KINDS), by=by, at=at)
