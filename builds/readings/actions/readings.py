"""Readings taken and struck out, kinds of the garage's own, targets, and what a car must have."""

from collections.abc import Collection, Iterable, Mapping
from datetime import datetime
from typing import Any, NamedTuple

from django.db import transaction

from builds.readings.actions import amiss, remeasure
from builds.readings.engine import READINGS
from builds.readings.engine.conditions import wants_wheels
from builds.readings.engine.doubts import doubts
from builds.readings.engine.fields import CHECK, PASS, TEXT
from builds.readings.engine.judge import OUT
from builds.readings.engine.limits import CHOSEN
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.void import AHEAD, LAPSED
from builds.readings.facts.readings import last_amounts, readings_of
from builds.readings.models.reading import OwnKind, Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from builds.work.facts.strips import off_its_wheels
from builds.work.models.job import Job
from garage.access import OWNER
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.reasons import refuse_faulty, says_why
from garage.engine.words import listed_in_words
from garage.models import Garage, Membership, Vehicle


class Typed(NamedTuple):
    """A value: whole stored units (None for words), and how it was typed in which unit."""

    amount: int | None
    typed: str
    unit: str = ""


class Measured(NamedTuple):
    """One reading among several: its kind and values, and what else `take` is told of it."""

    kind: ReadingKind
    values: Mapping[str, Typed]
    told: Mapping[str, Any]


class TargetInput(NamedTuple):
    """A limit of `engine.limits.SORTS` in whole stored units, how it was typed, and whose it is."""

    sort: str
    amount: int
    second: int | None
    typed: str
    second_typed: str = ""
    unit: str = ""
    mark: str = CHOSEN


@transaction.atomic
def take(
    vehicle: Vehicle,
    kind: ReadingKind,
    values: Mapping[str, Typed],
    *,
    by: Membership,
    at: datetime,
    **told: Any,
) -> Reading:
    """Write a reading down; what waits to be measured again on the car is brought up to date.

    Told are `who` measured where `by` only writes it down, when it was `taken_at`, the job that it is the `last_of`,
    `sure` once somebody said that a doubtful figure is right, and its conditions. What it found out of order is to be
    mended (`amiss`). Raises Refused.
    """
    return take_many(vehicle, [Measured(kind, values, told)], by=by, at=at)[0]


@transaction.atomic
def take_many(
    vehicle: Vehicle, measured: Iterable[Measured], *, by: Membership, at: datetime, follow: bool = True
) -> list[Reading]:
    """As `take`: all of them, or none; `follow` off where their job is finished before anything is to be mended."""
    taken = [_take(vehicle, one.kind, one.values, by=by, at=at, **one.told) for one in measured]
    if taken:
        remeasure.settle(vehicle, by=by, at=at)
    if follow:
        amiss.follow(vehicle, taken, by=by, at=at)
    return taken


def _take(
    vehicle: Vehicle,
    kind: ReadingKind,
    values: Mapping[str, Typed],
    *,
    by: Membership,
    at: datetime,
    who: Membership | None = None,
    taken_at: datetime | None = None,
    last_of: Job | None = None,
    sure: bool = False,
    **conditions: Any,
) -> Reading:
    work_or_refuse(by, vehicle)
    who, taken_at = who or by, taken_at or at
    _refuse_values(kind, values)
    _refuse_note(kind, values, str(conditions.get("note") or ""))
    _refuse_doubtful(vehicle, kind, values, sure=sure)
    if taken_at > at:
        raise Refused("That time is still to come: choose one that has passed.", "taken_at")
    _refuse_strangers(vehicle, who, last_of)
    reading = Reading.objects.create(
        vehicle=vehicle,
        kind=kind.slug,
        own=kind.own,
        at=taken_at,
        by=who,
        last_of=last_of,
        stripped=wants_wheels(kind.conditions) and off_its_wheels(vehicle, taken_at, last_of),
        written_at=at,
        **conditions,
    )
    ReadingValue.objects.bulk_create(
        ReadingValue(reading=reading, field=slug, amount=amount, typed=typed, unit=unit)
        for slug, (amount, typed, unit) in values.items()
    )
    return reading


def doubts_of(vehicle: Vehicle, kind: ReadingKind, values: Mapping[str, Typed]) -> dict[str, str]:
    """Of the values that are likelier a slip, by their field, a question."""
    amounts = {slug: value.amount for slug, value in values.items()}
    return doubts(kind.fields, amounts, vehicle.garage.units, last_amounts(vehicle, kind.key))


def _refuse_strangers(vehicle: Vehicle, who: Membership, last_of: Job | None) -> None:
    if who.garage_id != vehicle.garage_id:
        raise Refused("Whoever measured must be in the same garage.", "who")
    if last_of is not None and last_of.vehicle_id != vehicle.pk:
        raise Refused("That job is on another car.", "last_of")


def _refuse_doubtful(vehicle: Vehicle, kind: ReadingKind, values: Mapping[str, Typed], *, sure: bool) -> None:
    if not sure and (doubtful := doubts_of(vehicle, kind, values)):
        field, question = next(iter(doubtful.items()))
        raise Refused(question, f"value_{field}")


def _refuse_values(kind: ReadingKind, values: Mapping[str, Typed]) -> None:
    if not values:
        raise Refused("Write down at least one value.")
    if unknown := set(values) - {field.slug for field in kind.fields}:
        raise Refused(f"{kind.label} has no value called {sorted(unknown)[0]}.")
    for field in kind.fields:
        if field.type != TEXT and field.slug not in values and not kind.read_alone:
            raise Refused(f"{kind.label}: {field.label.lower()} is missing.")


def _refuse_note(kind: ReadingKind, values: Mapping[str, Typed], note: str) -> None:
    """Nothing that was looked at and passed weeps beside."""
    checks = [values[field.slug].amount for field in kind.fields if field.type == CHECK and field.slug in values]
    if checks and all(amount == PASS for amount in checks) and (wrong := refuse_faulty(note)):
        raise Refused(wrong, "note")


def refuse_strike(reading: Reading, by: Membership) -> str | None:
    """What counts without it is older, so that nobody but the owner takes another's away."""
    if by.role == OWNER or reading.by_id == by.pk:
        return None
    return f"{reading.by} took this reading: only the owner strikes out another's."


@transaction.atomic
def strike(reading: Reading, *, by: Membership, at: datetime, because: str) -> None:
    """Strike a wrong reading out, with the reason; it stays on record, and counts no more. Raises Refused."""
    if not says_why(because):
        raise Refused("Write down in words why it is struck out.", "because")
    if wrong := refuse_strike(reading, by):
        raise Refused(wrong, "because")
    struck = Reading.objects.standing().filter(pk=reading.pk)
    if not struck.update(struck_at=at, struck_by=by, struck_because=because.strip()):
        raise Refused("This reading is struck out already.")
    remeasure.settle(reading.vehicle, by=by, at=at)


def add_kind(garage: Garage, *, name: str, unit: str = "", is_number: bool = True, follows: str = "") -> OwnKind:
    """A kind of reading of the garage's own; it goes void with `follows` (slug)."""
    labels = {measurement.label.lower() for measurement in READINGS.values()}
    same = OwnKind.objects.in_garage(garage).filter(name__iexact=name)
    if name.lower() in labels or same.exists():
        raise Refused(f"There is a {name} already.", "name")
    return OwnKind.objects.create(
        garage=garage, name=name, unit=unit if is_number else "", is_number=is_number,
        follows=follows,
    )  # fmt: skip


@transaction.atomic
def set_targets(vehicle: Vehicle, kind: ReadingKind, aims: Mapping[str, TargetInput]) -> None:
    """The car's targets of that kind, field by field; a field left out has none any more."""
    rows = Target.objects.on(vehicle).of(kind.key)
    rows.exclude(field__in=aims).delete()
    for slug, aim in aims.items():
        rows.update_or_create(
            field=slug,
            defaults=aim._asdict(),
            create_defaults={
                **aim._asdict(), "vehicle": vehicle, "kind": kind.slug, "own": kind.own,
                "field": slug,
            },
        )  # fmt: skip


@transaction.atomic
def accept_limits(
    vehicle: Vehicle, kinds: Mapping[str, ReadingKind], aims: Mapping[str, Mapping[str, TargetInput]]
) -> None:
    """Limits by kind (key) and field, beside those that the car has: what is there stays."""
    for key, limits in aims.items():
        kind = kinds[key]
        there = set(Target.objects.on(vehicle).of(key).values_list("field", flat=True))
        Target.objects.bulk_create(
            Target(vehicle=vehicle, kind=kind.slug, own=kind.own, field=slug, **limit._asdict())
            for slug, limit in limits.items()
            if slug not in there
        )


@transaction.atomic
def choose_required(vehicle: Vehicle, keys: Collection[str], *, by: Membership, at: datetime) -> RequiredReadings:
    """Which readings (keys) the car must have; none is a choice too.

    What does not stand is measured before nobody asks for it any more, or struck out with a reason.
    """
    before = RequiredReadings.objects.filter(vehicle=vehicle).values_list("kinds", flat=True).first() or []
    _refuse_amiss(vehicle, {*before} - {*keys}, at)
    row, _ = RequiredReadings.objects.update_or_create(
        vehicle=vehicle, defaults={"kinds": list(keys), "chosen_by": by, "chosen_at": at}
    )
    remeasure.settle(vehicle, by=by, at=at)
    return row


def _refuse_amiss(vehicle: Vehicle, keys: Collection[str], at: datetime) -> None:
    """Readings (keys) that nobody asks for any more, if one of them lapsed, or was not as it must be."""
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines.values() if keys else ()
    asked = [line for line in lines if line.kind.key in keys]
    amiss = [line.kind.label for line in asked if line.state in LAPSED - {AHEAD} or line.judged == OUT]
    if amiss:
        how, them = ("is not as it", "it") if len(amiss) == 1 else ("are not as they", "them")
        line = f"{listed_in_words(amiss)} {how} must be: measure {them} first, or strike out what was read."
        raise Refused(line, "kinds")
