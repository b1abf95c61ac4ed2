"""Ready times, the planner's table of them, the recoat window, and time lost to the cold."""

import math

import pytest

from builds.cure.engine import (
    CureRule,
    CureTable,
    Heat,
    Product,
    ProductError,
    Stage,
    Temperature,
    cold_minutes,
    progress,
    ready_at,
    ready_table,
    shipped_products,
    shop_temperature,
)

PRIMER = shipped_products()["epoxy-primer"]
SIXTEEN = Product("sixteen", "Sixteen", ((Stage.FULL, CureRule(20, 16, 2)),), minimum=10)
SWINGING = Temperature.through([(720 * k - 360, 4 if k % 2 == 0 else 18) for k in range(30)], smooth=True)


def summed(product, stage, temperature, start, until, step=0.05):
    """Progress by the midpoint rule: the same integral by the plainest of means."""
    count = round((until - start) / step)
    total = 0.0
    for k in range(count):
        hours = product.hours_at(stage, temperature.at(start + (k + 0.5) * step))
        total += step / 60 / hours if hours else 0.0
    return total


@pytest.mark.parametrize("stage", list(Stage))
def test_progress_is_the_plain_sum_of_small_steps(stage):
    heated = shop_temperature(SWINGING, heats=[Heat(300, 800, 21)])
    found = progress(PRIMER, stage, 17, 2017, heated)
    assert found == pytest.approx(summed(PRIMER, stage, heated, 17, 2017), rel=1e-4)


@pytest.mark.parametrize(("low", "high"), [(9.4, 14.0), (6.0, 10.3), (9.9, 30.7)])
def test_a_night_just_below_the_minimum_is_cut_where_it_crosses(low, high):
    points = [(0, high), (660, low), (1440, high)]
    for smooth in (True, False):
        night = Temperature.through(points, smooth=smooth)
        found = progress(PRIMER, Stage.HANDLE, 0, 1440, night)
        # The plain sum is unsure of one of its own steps at each crossing.
        assert found == pytest.approx(summed(PRIMER, Stage.HANDLE, night, 0, 1440), abs=3e-5)


@pytest.mark.parametrize("start", [-1000, 0, 333.3, 5000])
def test_at_the_ready_time_the_progress_is_one(start):
    ready = ready_at(PRIMER, Stage.HANDLE, start, SWINGING)
    assert progress(PRIMER, Stage.HANDLE, start, ready, SWINGING) == pytest.approx(1, abs=1e-8)
    assert progress(PRIMER, Stage.HANDLE, start, ready - 1, SWINGING) < 1


def test_too_cold_too_late_or_unknown_is_none():
    assert ready_at(SIXTEEN, "full", 0, Temperature.fixed(9.99)) is None
    assert ready_at(SIXTEEN, "full", 0, Temperature.fixed(20), horizon=959) is None
    assert ready_at(SIXTEEN, "full", 0, Temperature.fixed(20), horizon=960) == pytest.approx(960)
    assert ready_at(SIXTEEN, "full", 0, Temperature.steps([(900, 20)])) is None
    assert ready_at(SIXTEEN, "full", 1000, Temperature.steps([(900, 20)])) is None
    assert progress(SIXTEEN, "full", 1000, 1100, Temperature.steps([(900, 20)])) == 0


def test_a_start_that_is_no_moment_is_refused():
    for start in (math.nan, math.inf):
        with pytest.raises(ProductError, match="the moment at which it started"):
            ready_at(SIXTEEN, "full", start, Temperature.fixed(20))


def test_done_just_as_it_goes_cold_is_done():
    # A tenth is not exact in binary: ten of them fall short of one by rounding.
    thirds = Temperature.steps([(96, 20)] * 10 + [(600, 0), (960, 20)])
    assert ready_at(SIXTEEN, "full", 0, thirds) == pytest.approx(960)


def test_a_day_of_different_temperatures_on_a_table():
    # Half of each stage at 10 °C (16 h) and half at 20 °C (8 h), by hand.
    two = Temperature.steps([(8 * 60, 10), (100 * 60, 20)])
    assert ready_at(PRIMER, Stage.RECOAT_FROM, 0, two) == pytest.approx((8 + 4) * 60)


def test_minutes_lost_to_the_cold():
    nights = Temperature.steps([(240, 18), (600, 8), (720, 16)])
    assert cold_minutes(SIXTEEN, "full", 0, 1560, nights) == 600
    assert cold_minutes(SIXTEEN, "full", 300, 400, nights) == 100
    assert cold_minutes(SIXTEEN, "full", 0, 240, nights) == 0


def test_the_table_of_a_steady_cure_is_its_length_in_slots():
    table = ready_table(SIXTEEN, "full", Temperature.fixed(20), slot_minutes=15, slots=200)
    assert len(table) == 201
    assert table[:137] == [k + 64 for k in range(137)]
    assert set(table[137:]) == {201}


@pytest.mark.parametrize("hours", [0.75, 1.75, 3.5, 5.25, 7, 9.25, 11])
def test_a_cure_of_whole_slots_never_takes_one_more_for_the_rounding(hours):
    clock = Product("clock", "Clock", ((Stage.FULL, CureRule(20, hours, 1)),))
    table = ready_table(clock, "full", Temperature.fixed(20), slot_minutes=15, slots=900)
    length = round(hours * 4)
    assert table[: 901 - length] == [k + length for k in range(901 - length)]


def test_the_table_rounds_up_to_a_whole_slot():
    table = ready_table(SIXTEEN, "full", Temperature.fixed(20.1), slot_minutes=50, slots=30)
    assert table[0] == math.ceil(960 / 2**0.01 / 50) == 20


def test_the_table_says_not_within_the_horizon_when_it_is_too_cold_or_unknown():
    assert ready_table(SIXTEEN, "full", Temperature.fixed(5), slot_minutes=15, slots=9) == [10] * 10
    short = Temperature.steps([(1000, 20)])
    table = ready_table(SIXTEEN, "full", short, slot_minutes=100, slots=20)
    assert table == [10] + [21] * 20


def test_in_a_cold_night_all_starts_are_ready_together():
    nights = Temperature.steps([(60, 20), (600, 5), (2000, 20)])
    table = ready_table(SIXTEEN, "full", nights, slot_minutes=60, slots=40)
    assert table[0] == 26
    assert set(table[1:12]) == {27}
    assert table[12] == 28


@pytest.mark.parametrize("bad", [{"slot_minutes": 0, "slots": 5}, {"slot_minutes": 5, "slots": 0}])
def test_a_plan_without_slots_is_refused(bad):
    with pytest.raises(ValueError, match="slots of some length"):
        ready_table(SIXTEEN, "full", Temperature.fixed(20), **bad)


def recoat(product, start, shop):
    """From when, and until when, the next coat goes on without sanding."""
    return tuple(ready_at(product, stage, start, shop) for stage in (Stage.RECOAT_FROM, Stage.RECOAT_TO))


def test_the_recoat_window_opens_and_closes():
    opens, closes = recoat(PRIMER, 60, Temperature.fixed(20))
    assert opens == pytest.approx(60 + 8 * 60)
    assert closes == pytest.approx(60 + 168 * 60)


def test_a_recoat_window_may_have_no_end():
    enamel = shipped_products()["rust-stop-enamel"]
    assert ready_at(enamel, Stage.RECOAT_FROM, 0, Temperature.fixed(20)) == pytest.approx(18 * 60)
    assert not enamel.has(Stage.RECOAT_TO)


def test_in_the_cold_the_window_closes_without_having_opened():
    assert recoat(PRIMER, 0, Temperature.fixed(5)) == (None, pytest.approx(336 * 60))


def test_warmth_that_comes_too_late_does_not_open_it_either():
    late = Temperature.steps([(340 * 60, 5), (100 * 60, 20)])
    opens, closes = recoat(PRIMER, 0, late)
    assert opens == pytest.approx((340 + 8) * 60)
    assert closes == pytest.approx(336 * 60)
    assert closes < opens


def test_a_product_without_a_recoat_time_has_no_window():
    plain = Product("x", "X", ((Stage.FULL, CureTable((10, 20), (8, 4))),))
    with pytest.raises(ProductError, match="has no time for “recoat_from”"):
        recoat(plain, 0, Temperature.fixed(20))
