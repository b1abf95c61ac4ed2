"""The pack list: what always goes along, spares and tools once, amounts that grow with the runs."""

import pytest

from builds.packing.engine.packing import SECTIONS, Car, SparePart, load_always, pack

HUB = SparePart(7, "front hub", "piece", 2, "fitted")


def lines(cars, runs=4):
    return {line.key: line for line in pack(cars, runs)}


def test_what_always_goes_along_stands_once_for_all_and_once_a_car():
    found = lines([Car(1, "Moth"), Car(2, "Heron")])
    for each in load_always():
        keys = [key for key in found if key.split(":")[1] == each.key and key.startswith("always")]
        assert len(keys) == (2 if each.per_car else 1), each.key


def test_gear_for_what_a_car_lacks_is_left_out_once_somebody_has_said():
    key = "always:neck:car:1"
    assert key in lines([Car(1, "Moth")])
    assert key not in lines([Car(1, "Moth", frozenset())])
    assert key in lines([Car(1, "Moth", frozenset({"neck_device"}))])


def test_consumables_grow_with_the_runs_and_are_rounded_up():
    def fuel(runs):
        return lines([Car(1, "Moth")], runs)["always:fuel:car:1"].amount

    (always,) = [each for each in load_always() if each.key == "fuel"]
    for runs in (1, 4, 9, 99):
        amount, unit = fuel(runs).split()
        least = always.base + always.per_run * runs
        assert unit == "l" and least <= int(amount) < least + always.step
    assert lines([Car(1, "Moth")], 3)["always:pressure-log:car:1"].amount == "6 lines"


@pytest.mark.parametrize("runs", [0, -1, 100])
def test_runs_out_of_bounds_are_refused(runs):
    with pytest.raises(ValueError, match="Runs are 1 to 99"):
        pack([], runs)


def test_a_spare_that_two_cars_may_need_goes_along_once():
    one = lines([Car(1, "Moth", spares=(HUB,))])["part:7"]
    assert (one.car, one.amount, one.why) == (1, "2 pieces", HUB.why)
    both = lines([Car(1, "Moth", spares=(HUB,)), Car(2, "Heron", spares=(HUB,))])["part:7"]
    assert both.car is None and both.why.startswith("For Moth and Heron.")


def test_a_tool_stands_once_whoever_asks_and_however_it_is_written():
    cars = [
        Car(1, "Moth", tools=(("Bleed bottle", "Bleed the brakes"), ("torque wrench", "Wheels"))),
        Car(2, "Heron", tools=(("bleed bottle", "Bleed again"),)),
    ]
    tools = [line for line in pack(cars, 4) if line.section == "tools"]
    assert [line.why for line in tools if line.what.lower() == "bleed bottle"] == ["For “Bleed the brakes”"]
    assert len([line for line in tools if line.what == "torque wrench"]) == 1


def test_what_is_owed_is_packed_with_why():
    line = lines([Car(1, "Moth", owed=(("3", "rear wing"),))])["owed:3"]
    assert (line.section, line.what, line.car) == ("spares", "rear wing", 1)


def test_sections_follow_each_other_and_keys_are_once():
    found = pack([Car(1, "Moth", spares=(HUB,)), Car(2, "Heron")], 4)
    order = [list(SECTIONS).index(line.section) for line in found]
    assert order == sorted(order)
    assert len({line.key for line in found}) == len(found)
