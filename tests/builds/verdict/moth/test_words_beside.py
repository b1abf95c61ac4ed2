"""What somebody writes beside a signature, a tick, a torque or a reading, and what it says against that."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.readings.actions import readings
from builds.readings.actions.readings import Typed
from builds.readings.facts.kinds import kind_of
from builds.scrutineering.actions import checks
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import hold_points, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS
from tests.builds.verdict.ways_kit import said, written
from tests.factories import NOW, HoldPointFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
FINE = "tight, no cracks"


def refused(words):
    return pytest.raises(Refused, match=f"“{words}” says that something is wrong: write that down as found")


def test_a_point_is_not_signed_as_cracked(cast, car):
    job = written(car, cast, kinds=["joint_opened"])
    point = HoldPointFactory(job=job, what="Look at the weld")
    steps.finish(job, by=cast.helper, at=NOW)
    with refused("cracked at its toe") as wrong:
        hold_points.sign(point, by=cast.owner, at=NOW, seen="cracked at its toe")
    assert wrong.value.field == "seen"
    assert hold_points.sign(point, by=cast.owner, at=NOW, seen=FINE)


def test_a_joint_is_neither_torqued_nor_signed_as_loose(cast, car):
    nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"])
    told = {"at": NOW, "key": uuid.uuid4()}
    with refused("one stud bent"):
        joints.mark(nuts, by=cast.helper, note="one stud bent", **told)
    joints.mark(nuts, by=cast.helper, note="by hand", **told)
    with refused("the last one is loose"):
        joints.sign(nuts, by=cast.owner, note="the last one is loose", at=NOW, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, note=FINE, at=NOW, key=uuid.uuid4())


@pytest.mark.parametrize("arrived", [None, NOW])
def test_an_item_is_not_ticked_as_failed(cast, car, arrived):
    item = CheckItem.objects.filter(key="pedal").get()
    with refused("goes to the floor"):
        checks.take(item, "tick", by=cast.helper, at=NOW, key=uuid.uuid4(), note="goes to the floor", arrived=arrived)
    checks.take(item, "tick", by=cast.helper, at=NOW, key=uuid.uuid4(), note="firm", arrived=arrived)


def test_what_passed_does_not_weep_and_a_figure_may_be_of_a_worn_tyre(cast, car):
    with refused("weeps at the left"):
        take(car, "brake_bleed", cast.helper, note="weeps at the left")
    take(car, "brake_bleed", cast.helper, note="no leak anywhere")
    take(car, "toe_front", cast.helper, note="on worn tyres")


def test_a_reading_of_the_garages_own_in_words_fails_by_them(cast, car):
    own = readings.add_kind(car.garage, name="Look at the welds", is_number=False)
    kind = kind_of(car.garage, own.key)
    readings.choose_required(car, [*KINDS, own.key], by=cast.owner, at=NOW)
    for words, state in (("cracked right through", "not_fit"), ("no cracks", "fit")):
        readings.take(car, kind, {field.slug: Typed(None, words) for field in kind.fields}, by=cast.owner, at=NOW)
        assert verdict_of(car, NOW + HOUR).state == state
        assert ("cracked right through" in said(car, NOW + HOUR)) is (state == "not_fit")
