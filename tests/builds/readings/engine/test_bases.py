"""What a reading rests on, and whether figures are those of the car as raced."""

import pytest

from builds.readings.engine.car_job import CarJob
from builds.readings.engine.conditions import not_as_raced
from builds.readings.engine.sorts_of_job import takes_seat_out
from builds.readings.engine.vocabulary import READINGS, resting_on, with_bases


def test_what_a_reading_rests_on_however_far_down():
    assert with_bases([]) == frozenset()
    assert with_bases(["ride_height"]) == {"ride_height"} | set(READINGS["ride_height"].rests_on)
    assert {"toe_front", "ride_height", "camber"} <= with_bases(["toe_front"])
    assert "toe_front" not in with_bases(["ride_height"])


@pytest.mark.parametrize("slug", READINGS)
def test_each_rests_on_what_they_say_that_rests_on_them(slug):
    for base in with_bases([slug]):
        assert slug in resting_on([base])


@pytest.mark.parametrize(("told", "wrong"), [
    ({}, ()),
    ({"bars": "hooked"}, ("bars connected",)),
    ({"driver": "empty"}, ("nobody aboard",)),
    ({"fuel_ml": 0}, ("tank dry",)),
    ({"fuel_ml": 1}, ()),
    ({"fuel_ml": None}, ()),
    ({"bars": "hooked", "driver": "empty", "fuel_ml": 0}, ("bars connected", "nobody aboard", "tank dry")),
])  # fmt: skip
def test_a_weighing_is_of_the_car_as_raced(told, wrong):
    given = {"bars": "unhooked", "driver": "aboard", "fuel_ml": 20_000, **told}
    assert not_as_raced("corner_weights", **given) == wrong
    on_bars = tuple(words for words in wrong if words != "bars connected")
    for slug in ("ride_height", "toe_front", "toe_rear", "camber", "caster", "bump_steer", "lock_clearance"):
        assert not_as_raced(slug, **given) == on_bars  # the bars are on when it is driven
    assert not_as_raced("wheel_torque", **given) == ()


@pytest.mark.parametrize(("kinds", "measures", "out"), [
    (("seat_or_belt_moved",), (), True), (("seat_or_belt_moved", "seat_work"), (), False),
    (("seat_or_belt_moved",), ("belt_geometry",), False), (("seat_work",), (), False),
])  # fmt: skip
def test_what_takes_the_seat_out_puts_nothing_back(kinds, measures, out):
    assert takes_seat_out(CarJob(kinds, measures)) is out
