"""What a write without signal is refused for, whatever phone sent it, and what of it stands beside others."""

import uuid
from datetime import timedelta

import pytest

from builds.joints.models import Joint, JointMark
from builds.paddock import actions as paddock
from builds.paddock.engine import Write
from builds.scrutineering.actions import check_lists
from garage.actions.refused import Refused
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory


@pytest.fixture
def nuts(entry):
    return Joint.objects.create(vehicle=entry.vehicle, name="Wheel nuts", systems=["wheels"])


def write(entry, item, to, by, value="", note="", seen=0, at=NOW):
    sent = Write(item, to, seen, at, value, note)
    return paddock.write(entry.event, sent, by=by, at=at, key=uuid.uuid4())


def test_what_is_no_line_of_ours(cast, entry, nuts):
    for item in ("boat-1", "check-x", "check-999999", "pack-999999", "joint-999999", "press-999999", "note-999999"):
        with pytest.raises(Refused, match="not on the list any more"):
            write(entry, item, "taken", cast.helper, value="rust")


def test_a_line_of_another_event_is_not_on_this_list(cast, entry):
    other = EntryFactory(event=EventFactory(garage=cast.garage), vehicle=VehicleFactory(garage=cast.garage))
    item = check_lists.make(other, by=cast.owner, at=NOW).items.first()
    for line, to in ((f"check-{item.pk}", "ticked"), (f"press-{other.pk}", "taken"), (f"note-{other.pk}", "said")):
        with pytest.raises(Refused, match="not on the list any more"):
            write(entry, line, to, cast.helper, value="1.8 1.8 1.7 1.7 bar")
    assert item.log.count() == 0


def test_what_cannot_be_said_of_a_line(cast, entry, nuts):
    item = check_lists.make(entry, by=cast.owner, at=NOW).items.first()
    for line, to in ((f"check-{item.pk}", "packed"), (f"joint-{nuts.pk}", "open"), (f"press-{entry.pk}", "open")):
        with pytest.raises(Refused, match="not on the list any more"):
            write(entry, line, to, cast.helper)


@pytest.mark.parametrize(("value", "torque"), [("0.001", 1), ("1000", 1_000_000), ("98 N·m", 98_000), (" ", None)])
def test_a_torque_of_a_joint(cast, entry, nuts, value, torque):
    assert write(entry, f"joint-{nuts.pk}", "marked", cast.helper, value=value).apply
    assert JointMark.objects.get().torque_mnm == torque


@pytest.mark.parametrize("value", ["0", "0.0004", "1000.001", "-5"])
def test_no_torque_of_a_joint(cast, entry, nuts, value):
    with pytest.raises(Refused, match="is no torque of a joint"):
        write(entry, f"joint-{nuts.pk}", "marked", cast.helper, value=value)
    assert not JointMark.objects.exists()


def test_a_torque_that_is_no_figure_is_told_as_it_was_typed(cast, entry, nuts):
    with pytest.raises(Refused, match="tight: Write"):
        write(entry, f"joint-{nuts.pk}", "marked", cast.helper, value="tight")


def test_a_look_is_for_the_mark_that_was_seen(cast, entry, nuts):
    line = f"joint-{nuts.pk}"
    write(entry, line, "marked", cast.helper, value="98")
    write(entry, line, "marked", cast.helper, value="99", seen=1)
    late = write(entry, line, "signed", cast.owner, seen=1)
    assert (late.apply, late.clash) == (False, True) and "marked it anew meanwhile" in late.told
    assert not JointMark.objects.exclude(signs=None).exists()


def test_what_is_wrong_with_a_line_is_written_down(cast, entry):
    item = check_lists.make(entry, by=cast.owner, at=NOW).items.first()
    with pytest.raises(Refused, match="Write down what is wrong with it"):
        write(entry, f"check-{item.pk}", "failed", cast.helper, note="  ")
    assert write(entry, f"check-{item.pk}", "failed", cast.helper, note="Loose").apply


def test_what_was_said_already_counts_again_only_in_other_words(cast, entry):
    item = check_lists.make(entry, by=cast.owner, at=NOW).items.first()
    written = [("", True, 1), ("", False, 1), ("  ", False, 1), ("With a new pin", True, 2)]
    for minute, (note, applies, lines) in enumerate(written):
        at = NOW + timedelta(minutes=minute)
        assert write(entry, f"check-{item.pk}", "ticked", cast.helper, note=note, at=at).apply is applies
        assert item.log.count() == lines


@pytest.mark.parametrize("value", ["1.8", "1.8 1.8 1.7", "1.8 1.8 1.7 1.7 1.7"])
def test_pressures_are_four(cast, entry, value):
    with pytest.raises(Refused, match="Write four pressures in"):
        write(entry, f"press-{entry.pk}", "taken", cast.helper, value=value)
