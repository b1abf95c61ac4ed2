"""Joints and ticks stand until the car is worked on or has run; not run gives them back."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.scrutineering.actions import check_lists, checks, runs
from builds.scrutineering.models.check import CheckItem
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.entry_run import EntryRun
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
GATES = NOW + timedelta(days=2)
AFTER = GATES + timedelta(days=1)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def entry(cast, car):
    event = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=GATES, ends_at=GATES + timedelta(hours=8))
    return EntryFactory(event=event, vehicle=car)


@pytest.fixture
def nuts(cast, car):
    nuts = Joint.objects.create(vehicle=car, name="Wheel nuts", systems=["wheels"], again_after_run=True)
    joints.mark(nuts, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=NOW, key=uuid.uuid4())
    return nuts


def about_nuts(car, at):
    said = [reason.sentence for reason in verdict_of(car, at).reasons]
    return [sentence for sentence in said if ("Wheel nuts" in sentence and "torque" in sentence) or "tight" in sentence]


def test_from_the_first_session_written_down_it_is_due(cast, car, entry, nuts):
    assert about_nuts(car, GATES + timedelta(hours=2)) == []
    runs.first_session(entry, by=cast.helper, at=GATES + timedelta(hours=1))
    assert about_nuts(car, GATES + timedelta(hours=2)) == [
        "Due for its re-torque: Wheel nuts. It ran at Kiln Lane on 4 Mar."
    ]
    joints.mark(nuts, by=cast.helper, at=GATES + timedelta(hours=2), key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=GATES + timedelta(hours=2), key=uuid.uuid4())
    assert about_nuts(car, GATES + timedelta(hours=3)) == []
    assert about_nuts(car, AFTER) == ["Due for its re-torque: Wheel nuts. It ran at Kiln Lane on 5 Mar."]
    joints.mark(nuts, by=cast.helper, at=AFTER, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=AFTER, key=uuid.uuid4())
    assert about_nuts(car, AFTER) == []


def test_unanswered_it_is_not_known_from_the_events_end(car, entry, nuts):
    ends = entry.event.ends_at
    assert about_nuts(car, ends - timedelta(minutes=1)) == []
    assert about_nuts(car, ends) == [
        "Not known to be tight: Wheel nuts. Kiln Lane was over on 5 Mar, and nobody has said whether the car ran."
    ]


def test_an_event_that_it_did_not_run_leaves_its_joints_as_they_were(cast, car, entry, nuts):
    runs.did_not_run(entry, by=cast.helper, at=AFTER)
    assert about_nuts(car, AFTER) == []


def test_a_first_session_taken_back_leaves_them_too(cast, car, entry, nuts):
    at = GATES + timedelta(hours=1)
    runs.first_session(entry, by=cast.helper, at=at)
    runs.not_run(EntryRun.objects.get(), by=cast.owner, at=at)
    assert about_nuts(car, at + timedelta(minutes=5)) == []


def test_a_joint_that_running_does_not_loosen_stands(car, entry, nuts):
    Joint.objects.update(again_after_run=False)
    assert about_nuts(car, AFTER) == []


@pytest.fixture
def ticked(cast, car, entry):
    """Ticked for the event after, before the first one was run: the nuts, and the lamps."""
    later = EventFactory(
        garage=cast.garage, name="Salt Flats", gates_at=AFTER + timedelta(days=3), ends_at=AFTER + timedelta(days=4)
    )
    checklist = check_lists.make(EntryFactory(event=later, vehicle=car), by=cast.owner, at=NOW)
    for key in ("wheel-nuts", "lamps"):
        item = CheckItem.objects.get(checklist=checklist, key=key)
        checks.take(item, "tick", by=cast.helper, at=NOW, key=uuid.uuid4())
    return later


def void(car, at):
    said = [reason.sentence for reason in verdict_of(car, at).reasons]
    return [sentence for sentence in said if "Touched since" in sentence]


def test_a_tick_of_what_running_changes_is_made_again_after_another_event(cast, car, entry, ticked):
    assert void(car, entry.event.ends_at + timedelta(hours=1)) == [
        "Not ticked: All wheel nuts or bolts there, torqued by hand and striped. Touched since: Kiln Lane"
        " was over on 5 Mar, and nobody has said whether the car ran."
    ]
    runs.did_not_run(entry, by=cast.helper, at=AFTER)
    assert void(car, AFTER) == []


def test_running_at_its_own_event_is_the_short_lists_matter(cast, car, ticked):
    own = ticked.entries.get()
    runs.did_not_run(car.entries.exclude(pk=own.pk).get(), by=cast.helper, at=AFTER)
    runs.first_session(own, by=cast.helper, at=ticked.gates_at + timedelta(hours=1))
    assert void(car, ticked.gates_at + timedelta(hours=2)) == []
