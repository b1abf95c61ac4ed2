"""Front and rear, left and right are read from words; work on one corner waits for none on another."""

import pytest

from builds.readings.engine.car_job import CarJob
from builds.readings.engine.corners_said import are_apart, corner_said
from builds.readings.engine.order_of_work import order_of_work


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("front brakes: new discs and pads, hose on left weeps", "front left"),
        ("weld up crack in REAR subframe mount", "rear"),
        ("Wheel bearing LF noisy", "left front"),
        ("RR upright cracked", "right rear"),
        ("fl hub", "front left"),
        ("Fit the wheel studs, left", "left"),
        ("Nuts with the right seat, bolts of the right class", ""),
        ("Front and rear discs", "front rear"),
        ("Refit the hub", ""),
        ("N/S rear shock leaks - new pair", "nearside rear"),
        ("o/s/f caliper; OSF hub", "offside front"),
        ("NS front strut", "nearside front"),
        ("Nearside rear, off-side door", "nearside rear offside"),
        ("driver's side front wishbone", "driver's_side front"),
        ("passenger side mirror", "passenger_side"),
        ("RL spring", "rear left"),
        ("L/H rear drop link, RHF tyre", "left rear right front"),
        ("flash the ECU, new OS on the dash", ""),
    ],
)
def test_what_words_name(words, named):
    assert corner_said(words) == frozenset(name.replace("_", " ") for name in named.split())


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("front", "rear", True),
        ("front left", "rear left", True),
        ("left", "right", True),
        ("front", "left", False),
        ("front rear", "rear", False),
        ("front", "", False),
        ("nearside rear", "offside rear", True),
        ("nearside rear", "left rear", False),
    ],
)
def test_which_are_apart(one, other, apart):
    assert are_apart(frozenset(one.split()), frozenset(other.split())) is apart


@pytest.mark.parametrize(("other", "linked"), [("rear", False), ("front", True), ("", True)])
def test_discs_of_the_front_wait_for_the_front_alone(other, linked):
    weld = CarJob(("chassis_weld", "bushing_or_mount"), corner=frozenset(other.split()))
    discs = CarJob(("wheel_off", "friction_parts"), corner=frozenset({"front"}))
    assert ((1, 2) in order_of_work({1: weld, 2: discs})) is linked
