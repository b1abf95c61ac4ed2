"""Alignment against worked and published figures.

Sources: signs ISO 8855:2011 7.1.6 and 7.1.7; an eighth of an inch of total toe on a 26 in tyre, 0.138° a wheel, from a
published conversion; thrust (left − right) / 2 from a maker's workshop manual; caster SAE 850219. The rest is worked.
"""

import pytest

from builds.bench.alignment.camber import camber_from_edges, floor_slope
from builds.bench.alignment.caster import caster_exact, caster_shop
from builds.bench.alignment.toe import about_thrust, each_of_total, thrust_angle, toe_angle, total_difference
from builds.bench.alignment.toe_setting import turns_said
from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out

pytestmark = pytest.mark.plain


@pytest.mark.parametrize(
    ("total", "across", "each"),
    [(2.0, 431.8, 0.13269), (2.0, 630, 0.09095), (3.175, 660.4, 0.13773)],
)
def test_total_toe_as_angle(total, across, each):
    assert each_of_total(total, across) == pytest.approx(each, abs=6e-6)


@pytest.mark.parametrize(("across", "total"), [(431.8, 1.50727), (630, 2.19911)])
def test_a_fifth_of_a_degree_in_millimetres(across, total):
    assert total_difference(0.20, across) == pytest.approx(total, abs=6e-6)


def test_one_wheel():
    assert toe_angle(1.5, 470) == pytest.approx(0.18286, abs=6e-6)
    assert (toe_angle(2.0, 470), toe_angle(-0.5, 470)) == pytest.approx((0.24381, -0.06095), abs=6e-6)
    assert toe_angle(0.5, 431.8) == pytest.approx(0.06635, abs=6e-6)
    assert toe_angle(2, 2575) == pytest.approx(0.04450, abs=6e-6)


def test_thrust():
    assert thrust_angle(0.20, 0.05) == pytest.approx(0.0750)
    assert thrust_angle(0.10, -0.10) == pytest.approx(0.100)
    assert about_thrust(0.05, 0.15, 0.075) == pytest.approx((-0.025, 0.225))


def test_caster_by_swinging():
    assert caster_exact(-3.31150, 0.78801, 20, 12) == pytest.approx(6, abs=1e-4)
    assert caster_shop(-3.31150, 0.78801, 20, 20) == pytest.approx(5.99309, abs=1e-5)
    assert caster_exact(-0.43263, 1.12321, 15, 10) == pytest.approx(3, abs=1e-4)
    assert caster_shop(-0.43263, 1.12321, 15, 15) == pytest.approx(3.00565, abs=2e-5)
    assert caster_shop(-4.2, 0.1, 20, 20) == pytest.approx(6.28618, abs=1e-5)


@pytest.mark.parametrize(("swing", "factor"), [(10, 2.87939), (15, 1.93185), (20, 1.46190)])
def test_the_shop_factor(swing, factor):
    caster = sum_called("caster-swing")
    worked, _ = work_out(caster, caster.example | {"swing": str(swing)})
    assert worked.value("factor") == pytest.approx(factor, abs=6e-6)


def test_camber():
    assert camber_from_edges(12, 450) == pytest.approx(-1.52807, abs=6e-6)
    assert floor_slope(2, 1500) == pytest.approx(0.07639, abs=6e-6)
    typed = {"left": "-2.35", "right": "-1.75", "rise": "7.854", "apart": "1500"}
    worked, errors = work_out(sum_called("camber"), typed)
    assert not errors
    assert (worked.value("left"), worked.value("right")) == pytest.approx((-2.65, -1.45), abs=1e-4)


def test_a_string_box():
    box = sum_called("string-box")
    typed = box.example | {"fl_front": "152.5", "fl_rear": "151", "rl_front": "150.5", "rl_rear": "149"}
    worked, errors = work_out(box, typed)
    assert not errors
    assert worked.value("fl") == pytest.approx(0.18286, abs=6e-6)
    assert worked.value("wheel") == pytest.approx(15 * worked.value("thrust"))


def test_a_string_out_of_parallel_is_said():
    box = sum_called("string-box")
    worked, _ = work_out(box, box.example | {"fl_front": "162.5", "fl_rear": "161"})
    assert [said.split(" is ")[0] for said in worked.warnings] == ["The left string"]


def test_a_setting_in_turns():
    setting = sum_called("toe-setting")
    worked, errors = work_out(setting, setting.example | {"target": "0.2", "per_turn": "0.5"})
    assert not errors
    # about the thrust line the left stands at -0.025, the right at 0.225; each wants 0.1
    assert (worked.value("left"), worked.value("right")) == pytest.approx((0.25, -0.25))
    said = {answer.slug: answer.words for answer in worked.answers}
    assert (said["left"], said["right"]) == ("a quarter turn longer", "a quarter turn shorter")


@pytest.mark.parametrize(
    ("turns", "said"),
    [
        (0.06, "leave it"),
        (0.11, "an eighth of a turn longer"),
        (-0.6, "five eighths of a turn shorter"),
        (1.02, "one turn longer"),
        (-1.4, "1.375 turns shorter"),
    ],
)
def test_turns_are_said_to_the_nearest_eighth(turns, said):
    assert turns_said(turns) == said


@pytest.mark.parametrize(
    ("typed", "field"),
    [({}, "angle"), ({"angle": "0.1", "difference": "1"}, "angle"), ({"difference": "99", "across": "98"}, "across")],
)
def test_toe_is_written_one_way(typed, field):
    toe = sum_called("toe-units")
    worked, errors = work_out(toe, {"across": "470"} | typed)
    assert worked is None
    assert set(errors) == {field}
