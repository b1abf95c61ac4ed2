"""Corner weights against worked figures.

Source of the definitions: Milliken & Milliken, *Race Car Vehicle Dynamics*, chapter 18 (from memory); the figures of
the car are worked by statics, those with springs were found again by least energy with another program.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from builds.bench.weights.cg_height import Lift, cg_height
from builds.bench.weights.corner_weights import Corners, centre
from builds.bench.weights.perch_turns import turns_of
from builds.bench.weights.springs_model import GRAVITY, Stance, respond

pytestmark = pytest.mark.plain
CAR = Corners(312.5, 298.0, 287.0, 302.5)


def test_shares_of_a_car():
    assert CAR.total == 1200
    assert CAR.front == pytest.approx(50.8750)
    assert CAR.left == pytest.approx(49.95833333)
    assert CAR.cross == pytest.approx(48.75)
    assert CAR.difference == pytest.approx(-30)


def test_where_the_centre_of_gravity_lies():
    assert centre(CAR, 2575, 1475, 1480) == pytest.approx((1264.96875, 0.64687), abs=1e-4)
    assert centre(Corners(300, 300, 250, 250), 2500, 1450, 1450) == pytest.approx((1136.363636, 0))


STANCE = Stance(2575, 1475, 1480, (35, 35, 30, 30))
LOADS = {"fl": "312.5", "fr": "298", "rl": "287", "rr": "302.5", "wheelbase": "2575", "track_front": "1475"}
TYPED = LOADS | {"track_rear": "1480", "rate_front": "35", "rate_rear": "30"}


def test_a_perch_of_five_millimetres():
    change = respond(STANCE, perches=(5, 0, 0, 0))
    assert change.loads == pytest.approx((40.5318, -40.5318, -40.3949, 40.3949), abs=1e-4)
    assert change.sinks == pytest.approx((-3.84195, -1.15805, -1.34650, 1.34650), abs=1e-5)


def test_one_perch_for_half_the_weight_across():
    worked, errors = work_out(sum_called("perch-turns"), TYPED | {"cross": "50", "perch": "fl", "pitch": "2"})
    assert not errors
    assert worked.value("fl_perch") == pytest.approx(-9.08845, abs=1e-5)
    after = [worked.value(f"{slug}_after") for slug in ("fl", "fr", "rl", "rr")]
    assert after == pytest.approx([304.9873, 305.5127, 294.4873, 295.0127], abs=1e-4)
    sinks = [worked.value(f"{slug}_sinks") for slug in ("fl", "fr", "rl", "rr")]
    assert sinks == pytest.approx([6.9835, 2.1050, 2.4475, -2.4475], abs=1e-4)
    assert worked.value("cross_after") == pytest.approx(50)


def test_turns_of_a_perch():
    """A turn of 2 mm at a motion ratio of 0.9 is 2.2222 mm at the wheel; dividing by it and not multiplying."""
    given = {"ratio_front": 0.9, "ratio_rear": 0.9, "pitch": 2.0}
    assert turns_of((-2.27211, 0, 0, 0), given)[0] == pytest.approx(-1.02245, abs=1e-5)
    assert turns_of((2.2222222, 0, 0, 0), given)[0] == pytest.approx(1)


def test_four_perches_keep_the_heights_and_share_the_work():
    worked, _ = work_out(sum_called("perch-turns"), TYPED | {"cross": "50", "pitch": "2"})
    assert worked.value("cross_after") == pytest.approx(50)
    for slug in ("fl", "fr", "rl", "rr"):
        assert worked.value(f"{slug}_sinks") == pytest.approx(0, abs=1e-9)
        assert abs(worked.value(f"{slug}_perch")) == pytest.approx(2.27, abs=0.4)


def test_four_perches_do_the_same_with_a_bar_hooked_up():
    free, _ = work_out(sum_called("perch-turns"), TYPED | {"cross": "50", "pitch": "2"})
    hooked, _ = work_out(sum_called("perch-turns"), TYPED | {"cross": "50", "pitch": "2", "bar_front": "30"})
    for slug in ("cross_after", "fl_turns", "rr_turns", "fl_sinks"):
        assert hooked.value(slug) == pytest.approx(free.value(slug), abs=1e-9)


def test_a_driver_comes_in_and_a_wheel_goes_out():
    change = respond(STANCE, mass=60, x=1350, y=-360)
    assert [load / GRAVITY for load in change.loads] == pytest.approx([22.1325, 6.4112, 22.4887, 8.9676], abs=1e-4)
    worked, errors = work_out(sum_called("masses"), TYPED | {"masses": "driver 60 kg at 1350; -360"})
    assert not errors
    said = [worked.value(slug) for slug in ("total_after", "front_after", "left_after", "cross_after")]
    assert said == pytest.approx([1260, 50.7178, 51.1207, 48.7222], abs=1e-4)
    assert worked.value("behind_after") == pytest.approx(1269.018, abs=1e-3)
    assert worked.value("right_after") == pytest.approx(-16.527, abs=1e-3)
    change = respond(STANCE, mass=-14, x=3000, y=0)
    assert [load / GRAVITY for load in change.loads] == pytest.approx([1.1553, 1.1553, -8.1553, -8.1553], abs=1e-4)


def test_height_of_the_centre_of_gravity():
    lift = Lift(1200, 610.5, 624.5, 2575, 400, 300, 300)
    assert cg_height(lift) == pytest.approx(491.0456, abs=1e-4)
    assert math.degrees(lift.tilted) == pytest.approx(8.93650, abs=1e-5)
    assert lift.per_kg == pytest.approx(13.646, abs=1e-3)
    assert Lift(1200, 610.5, 624.5, 2575, 250, 300, 300).per_kg == pytest.approx(21.998, abs=1e-3)


@pytest.mark.parametrize("bars", [(0.0, 0.0), (20.0, 0.0), (35.0, 12.0)])
@given(
    st.lists(st.floats(-20, 20), min_size=4, max_size=4), st.floats(-80, 80), st.floats(0, 3000), st.floats(-900, 900)
)
def test_what_is_found_balances_and_every_spring_bears_its_share(bars, perches, mass, x, y):
    stance = Stance(2575, 1475, 1480, (35, 34, 30, 31), bars)
    change = respond(stance, perches=tuple(perches), mass=mass, x=x, y=y)
    force = mass * GRAVITY
    assert sum(change.loads) == pytest.approx(force, abs=1e-6)
    assert sum(load * px for load, (px, _) in zip(change.loads, stance.places, strict=True)) == pytest.approx(
        force * x, abs=1e-3
    )
    assert sum(load * py for load, (_, py) in zip(change.loads, stance.places, strict=True)) == pytest.approx(
        force * y, abs=1e-3
    )
    fl, fr, rl, rr = change.sinks
    # a rigid car: both axles roll alike
    assert (fr - fl) / 1475 == pytest.approx((rr - rl) / 1480, abs=1e-9)
    # each wheel bears its spring, its perch and its share of the bar
    for wheel, (load, sinks, partner, bar) in enumerate(
        zip(change.loads, change.sinks, (fr, fl, rr, rl), (bars[0], bars[0], bars[1], bars[1]), strict=True)
    ):
        borne = stance.rates[wheel] * (sinks + perches[wheel]) + bar / 2 * (sinks - partner)
        assert load == pytest.approx(borne, abs=1e-6)


def test_a_rigid_bar_lets_a_perch_move_nothing():
    stiff = Stance(2575, 1475, 1480, (35, 35, 30, 30), (1e9, 1e9))
    assert max(abs(load) for load in respond(stiff, perches=(5, 0, 0, 0)).loads) < 60
    free = respond(STANCE, perches=(5, 0, 0, 0)).loads[0]
    hooked = respond(Stance(2575, 1475, 1480, (35, 35, 30, 30), (30, 0)), perches=(5, 0, 0, 0)).loads[0]
    assert hooked < free


@pytest.mark.parametrize(
    ("name", "typed", "field"),
    [
        ("masses", {"masses": "driver"}, "masses"),
        ("masses", {"masses": "driver 60 kg at x; 0"}, "masses"),
        ("masses", {"masses": "crane -900 kg at 0; -700"}, "masses"),
        ("cg-height", {"raised": "610.5"}, "raised"),
        ("cg-height", {"height": "2575"}, "height"),
        ("cg-height", {"front": "1200"}, "front"),
    ],
)
def test_what_cannot_be_is_one_sentence_at_its_field(name, typed, field):
    asked = sum_called(name)
    worked, errors = work_out(asked, asked.example | typed)
    assert worked is None
    assert list(errors) == [field]
    assert errors[field].endswith(".")
