"""Writes from the event's day, some of them made without signal: each to the row it is about."""

import uuid
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from builds.joints import actions as joints
from builds.joints.models import MOST_MNM, Joint
from builds.packing import actions as packing
from builds.packing.models import PackItem
from builds.paddock.engine import PRESSURES, ItemStanding, Write, WriteOutcome, merge
from builds.paddock.facts import item_standing, joint_standing
from builds.readings.actions import readings
from builds.readings.facts.kinds import kind_of
from builds.scrutineering.actions import checks
from builds.scrutineering.engine.check_states import CHECK_STATES, CheckState
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import findings
from garage.actions.refused import Refused
from garage.clock import clock_words
from garage.engine.said import said, says_unit, several
from garage.engine.units import QuantityError, Unit, unit_for
from garage.models import Entry, Event, Membership

GONE = "That line is not on the list any more: look again."
CHECK_STEPS = {"ticked": "tick", "failed": "fail", "left_out": "leave_out"}
PACK_STEPS = {"packed": "pack", "left": "leave"}


@dataclass(frozen=True)
class ArrivedWrite:
    """A write as it came in: of which event, about which row (pk), what was sent, by whom, when, with its key."""

    event: Event
    pk: int
    sent: Write
    by: Membership
    at: datetime
    key: uuid.UUID


@transaction.atomic
def write(event: Event, sent: Write, *, by: Membership, at: datetime, key: uuid.UUID) -> WriteOutcome:
    """Apply it if it stands beside what others wrote meanwhile. Raises Refused."""
    kind, number = sent.item.split("-", 1)
    if kind not in WRITES or not number.isdecimal():
        raise Refused(GONE)
    return WRITES[kind](ArrivedWrite(event, int(number), sent, by, at, key))


def _check(arrived: ArrivedWrite) -> WriteOutcome:
    rows = CheckItem.objects.filter(checklist__entry__event=arrived.event, pk=arrived.pk)
    item = rows.select_for_update(of=("self",)).first()
    if item is None:
        raise Refused(GONE)
    outcome = _met(item_standing(item), arrived.sent, (*CHECK_STEPS, "open"))
    if not outcome.apply:
        return outcome
    if arrived.sent.to == CheckState.OPEN:
        checks.undo(item, by=arrived.by, at=arrived.sent.at, key=arrived.key, arrived=arrived.at)
        return outcome
    if arrived.sent.to == CheckState.FAILED and not arrived.sent.note.strip():
        raise Refused("Write down what is wrong with it.")
    step = CHECK_STEPS[arrived.sent.to]
    if item.state == CheckState.FAILED and step != "fail":
        raise Refused(CHECK_STATES.refusal(step, item.state) or GONE)
    taken = checks.take(
        item, step, by=arrived.by, at=arrived.sent.at, key=arrived.key, note=arrived.sent.note, arrived=arrived.at
    )
    if not taken.counts:
        return WriteOutcome(apply=False, told=taken.said or "A later tap stands.", clash=True)
    return outcome


def _pack(arrived: ArrivedWrite) -> WriteOutcome:
    rows = PackItem.objects.filter(packlist__event=arrived.event, pk=arrived.pk)
    item = rows.select_for_update(of=("self",)).first()
    if item is None:
        raise Refused(GONE)
    outcome = _met(item_standing(item), arrived.sent, (*PACK_STEPS, "open"))
    if not outcome.apply:
        return outcome
    step = PACK_STEPS.get(arrived.sent.to) or ("unpack" if item.state == "packed" else "want")
    taken = packing.take(item, step, by=arrived.by, at=arrived.sent.at, key=arrived.key, arrived=arrived.at)
    if not taken.counts:
        return WriteOutcome(apply=False, told="A later tap stands.", clash=True)
    return outcome


def _pressures(arrived: ArrivedWrite) -> WriteOutcome:
    entry = _entry(arrived.event, arrived.pk)
    kind = kind_of(arrived.event.garage, PRESSURES)
    if kind is None or arrived.sent.to != "taken":
        raise Refused(GONE)
    unit = unit_for("pressure", arrived.event.garage.units)
    words = several(arrived.sent.value_in(unit.symbol))
    if len(words) != len(kind.fields):
        raise Refused(f"Write four pressures in {unit.symbol}: front left, front right, rear both.")
    values = {}
    for word, field in zip(words, kind.fields, strict=True):
        try:
            amount = round(said(word, unit.symbol, "Pa"))
        except QuantityError as wrong:
            raise Refused(f"{word}: {wrong}") from wrong
        if not field.least <= amount <= field.most:
            raise Refused(f"{_typed(word, unit)} is no pressure of a tyre.")
        values[field.slug] = readings.Typed(amount, word, "" if says_unit(word) else unit.symbol)
    readings.take(
        entry.vehicle, kind, values, by=arrived.by, at=arrived.at, taken_at=arrived.sent.at, note=arrived.sent.note
    )
    return WriteOutcome(apply=True)


def _joint(arrived: ArrivedWrite) -> WriteOutcome:
    there = Joint.objects.filter(vehicle__entries__event=arrived.event, pk=arrived.pk).kept()
    joint = Joint.objects.filter(pk__in=there).select_for_update(of=("self",)).first()
    if joint is None:
        raise Refused(GONE)
    now, torque = joint_standing(joint), _torque(arrived.event, arrived.sent)
    last = joints.last_mark(joint)
    differs = arrived.sent.to == "marked" and last is not None and last.torque_mnm != torque
    outcome = _met(now, arrived.sent, ("marked", "signed"), differs=differs)
    if not outcome.apply:
        return outcome
    if arrived.sent.to == "signed":
        if now.state == "marked" and arrived.sent.seen != now.version:  # a signature is for the mark that was looked at
            told = f"{now.who} marked it anew meanwhile: look at that mark, then sign."
            return WriteOutcome(apply=False, told=told, clash=True)
        joints.sign(
            joint, by=arrived.by, at=arrived.sent.at, key=arrived.key, note=arrived.sent.note, arrived=arrived.at
        )
        return outcome
    unit = unit_for("torque", arrived.event.garage.units)
    joints.mark(
        joint,
        by=arrived.by,
        at=arrived.sent.at,
        key=arrived.key,
        torque_mnm=torque,
        typed=_typed(arrived.sent.value_in(unit.symbol), unit) if torque else "",
        wrench=arrived.sent.wrench,
        note=arrived.sent.note,
        arrived=arrived.at,
    )
    return outcome


def _torque(event: Event, sent: Write) -> int | None:
    """In mN·m; None where none is said."""
    if sent.to != "marked" or not sent.value.strip():
        return None
    unit = unit_for("torque", event.garage.units)
    try:
        torque = round(said(sent.value_in(unit.symbol), unit.symbol, "mN·m"))
    except QuantityError as wrong:
        raise Refused(f"{sent.value}: {wrong}") from wrong
    if not 1 <= torque <= MOST_MNM:
        raise Refused(f"{_typed(sent.value, unit)} is no torque of a joint.")
    return torque


def _typed(words: str, unit: Unit) -> str:
    """With its unit, if none was written beside it."""
    return words if says_unit(words) else f"{words} {unit.symbol}"


def _note(arrived: ArrivedWrite) -> WriteOutcome:
    entry, line = _entry(arrived.event, arrived.pk), arrived.sent.value.strip()
    if not line or arrived.sent.to != "said":
        raise Refused("Write down what was seen.")
    note = f"Seen at {arrived.event}, {clock_words(arrived.sent.at, arrived.at)}. {arrived.sent.note}".strip()
    findings.seen(entry.vehicle, line, by=arrived.by, at=arrived.at, note=note)
    return WriteOutcome(apply=True)


def _entry(event: Event, pk: int) -> Entry:
    entry = Entry.objects.filter(event=event, pk=pk).kept().select_related("vehicle").first()
    if entry is None:
        raise Refused(GONE)
    return entry


def _met(now: ItemStanding, sent: Write, known: tuple[str, ...], *, differs: bool = False) -> WriteOutcome:
    if sent.to not in known:
        raise Refused(GONE)
    outcome = merge(now, sent.seen, sent.to, differs=differs)
    words = sent.to != "open" and (sent.note.strip() or sent.value.strip())
    if words and not outcome.apply and not outcome.clash:
        return WriteOutcome(apply=True)  # the same was said already, but not in these words
    return outcome


WRITES: dict[str, Callable[[ArrivedWrite], WriteOutcome]] = {
    "check": _check,
    "pack": _pack,
    "joint": _joint,
    "press": _pressures,
    "note": _note,
}
