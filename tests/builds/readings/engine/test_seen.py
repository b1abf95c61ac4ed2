"""What somebody saw ends what was marked, ticked and read before it, and nothing else."""

from datetime import UTC, datetime, timedelta

import pytest

from builds.joints.engine.joints import opens
from builds.readings.engine.seen import TELLING, seen_by_somebody, seen_failed, seen_out
from builds.readings.engine.void import FinishedWork, TakenReading, standings
from garage.engine.systems_said import systems_said

AT = datetime(2027, 3, 2, 18, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


class Bolted:
    def __init__(self, systems, *opened_by):
        self.systems, self.opened_by = systems, opened_by


NUTS = Bolted(["wheels"], "wheel_off")
TIE_ROD = Bolted(["steering"], "joint_opened", "steering_arm")
ARM = Bolted(["suspension"], "joint_opened")
BANJO = Bolted(["brakes"], "hydraulics_opened")


@pytest.mark.parametrize(
    ("line", "joint", "opened", "untrue"),
    [
        ("Wheel nuts loose, front left", NUTS, True, {"wheel_torque"}),
        ("wheel nut missing", NUTS, True, {"wheel_torque"}),
        ("Wheel stud snapped", NUTS, True, {"wheel_torque"}),
        ("Wheel nuts loose, front left", TIE_ROD, False, {"wheel_torque"}),
        ("Track rod jam nut loose", TIE_ROD, True, {"jam_nuts", "toe_front"}),
        ("Brake pads worn", NUTS, False, set()),
        ("Brake disc loose", NUTS, False, set()),  # its wheel is off on the way to it
        ("Brake union weeps", BANJO, True, {"brake_bleed", "leak_check"}),
        ("Pedal goes to the floor", BANJO, False, {"brake_bleed", "pedal_travel"}),
        ("Petrol drips from the tank union", NUTS, False, {"fuel_leak"}),
        ("Puncture, front left tyre", NUTS, False, {"tyre_pressures"}),
        ("Tie rod bent", TIE_ROD, False, {"toe_front"}),
        ("Throttle sticks", NUTS, False, {"throttle_return"}),
        ("Kill switch does not stop it", NUTS, False, {"master_switch"}),
        ("Alternator wire broken", NUTS, False, set()),
        ("Shoulder strap frayed", NUTS, False, {"belt_life"}),
        ("Seat runner cracked", NUTS, False, set()),
        ("Brake fluid low", BANJO, False, {"fluid_levels"}),
        ("Extinguisher bracket is loose", NUTS, False, set()),
        ("Extinguisher low", NUTS, False, {"extinguisher"}),
        ("New wheel nuts", NUTS, False, set()),
        ("Mirror loose", NUTS, False, set()),
    ],
)
def test_what_was_found_ends_the_marks_and_readings_that_it_belies(line, joint, opened, untrue):
    sight = seen_by_somebody(line, AT, systems_said(line), 7)
    assert (sight is not None and opens(joint, sight.work(UTC))) == opened
    assert untrue <= (sight.untrue if sight else set()) and (untrue or sight is None or not sight.untrue)
    if sight:
        assert sight.work(UTC).words == f"“{line}” was found on 2 Mar."


@pytest.mark.parametrize(
    ("slug", "joint", "opened"),
    [
        *(("wheel_torque", NUTS, True), ("wheel_torque", TIE_ROD, False), ("toe_front", TIE_ROD, True)),
        *(("toe_front", ARM, False), ("toe_front", NUTS, False), ("joint_torque", ARM, True)),
    ],
)
def test_a_reading_that_is_out_ends_the_marks_of_what_sets_it(slug, joint, opened):
    assert opens(joint, seen_out(slug, AT, failed=False).work(UTC)) is opened


def test_what_rests_on_a_reading_that_is_out_was_taken_on_something_else():
    taken = {"camber": TakenReading(AT), "toe_front": TakenReading(AT - MINUTE), "wheel_torque": TakenReading(AT)}
    out = seen_out("camber", AT, failed=False).voiding
    assert {slug: one.state for slug, one in standings(taken, [out]).items()} == {
        "camber": "stands", "toe_front": "void", "wheel_torque": "stands",
    }  # fmt: skip
    again = {**taken, "toe_front": TakenReading(AT + MINUTE)}
    assert standings(again, [out])["toe_front"].state == "stands"


def test_an_item_that_asks_whether_something_is_held_fails_when_it_is_not():
    text, kinds = "All wheel nuts or bolts there, torqued by hand and striped", frozenset({"wheel_off"})
    failed = seen_failed(text, "two gone", AT, ("wheels",), kinds)
    assert failed and failed.untrue == {"wheel_torque"} and opens(NUTS, failed.work(UTC))
    assert seen_failed("Tyres free of cuts", "worn", AT, ("wheels",), frozenset({"tyre_or_pressure"})) is None


def test_work_says_by_its_kinds_what_it_spoils_and_what_was_seen_says_it_itself():
    assert "wheel_torque" in FinishedWork(1, "Wheels", ("wheel_off",), AT).voids
    assert FinishedWork(1, "Nuts", ("wheel_off",), AT, spoils=frozenset({"jam_nuts"})).voids == {"jam_nuts"}
    assert {"wheel_torque", "camber", "ride_height"} <= set(TELLING) and "fan_switch" not in TELLING
