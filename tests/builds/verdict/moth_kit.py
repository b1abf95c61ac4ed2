"""Moth, a car that is fit to run: entered, with every record as it must be."""

import contextlib
import uuid
from datetime import timedelta

from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.engine.check_states import UNDO
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.steps.actions import hold_points
from builds.verdict.facts.verdict import verdict_of
from builds.work.engine.again import BLEED_AGAIN
from builds.work.models.hold_point import HoldPoint
from garage.actions.refused import Refused
from tests.builds.gear.gear_kit import need, piece
from tests.builds.readings.reading_kit import limit, require, take
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

KINDS = ("ride_height", "corner_weights", "toe_front", "brake_bleed", "wheel_torque")


def tick_all(cast, at):
    """Everything looked at again, as on the evening before.

    What is open or ticked has the rows that taps would leave, in few queries; of the rest there is more to say.
    """
    stands = {
        line.item_id: line for line in CheckLog.objects.filter(step="tick", item__state="ticked", answered_by=None)
    }
    items = {item.pk: item for item in CheckItem.objects.all()}
    plain = [pk for pk, item in items.items() if item.state == "open" or pk in stands]
    steps = [(pk, UNDO, stands[pk]) for pk in plain if pk in stands] + [(pk, "tick", None) for pk in plain]
    CheckLog.objects.bulk_create(
        CheckLog(item_id=pk, step=step, answers=answers, by=cast.owner, at=at, arrived_at=at, key=uuid.uuid4())
        for pk, step, answers in steps
    )
    CheckItem.objects.filter(pk__in=plain).update(state="ticked", by=cast.owner, at=at, note="")
    for pk in items.keys() - set(plain):
        tick_again(items[pk], cast, at)


def tick_again(item, cast, at):
    """By taps."""
    if item.state != "open":
        with contextlib.suppress(Refused):
            item = checks.undo(item, by=cast.owner, at=at, key=uuid.uuid4()).item
    checks.take(item, "tick", by=cast.owner, at=at, key=uuid.uuid4())


def sign_bleed(by, at):
    """Brakes that were opened are bled, and somebody looked at it."""
    for point in HoldPoint.objects.filter(job__recipe=BLEED_AGAIN).unsigned():
        hold_points.sign(point, by=by, at=at)


def fit_moth(cast):
    """Its entry."""
    car = VehicleFactory(garage=cast.garage, name="Moth", state="driveable")
    event = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=NOW + timedelta(days=3))
    entry = EntryFactory(event=event, vehicle=car)
    require(car, cast.owner, *KINDS)
    for kind in KINDS:
        take(car, kind, cast.owner)
        limit(car, kind)
    piece(car, kind="extinguisher")
    need(cast, car, "extinguisher")
    check_lists.make(entry, by=cast.owner, at=NOW)
    tick_all(cast, NOW)
    assert verdict_of(car, NOW).state == "fit"
    return entry
