"""Dew points, coating limits and water in the air against published values."""

from itertools import combinations
from math import log

import pytest

from builds.cure.engine import (
    PAINT_LIMITS,
    CoatingLimits,
    dew_point,
    relative_humidity,
    water_in_air,
)
from tests.builds.cure.coats import coating_verdict

# Other constants of the same form: they differ by less than 0.01 °C in a garage.
ALDUCHOV_ESKRIDGE = 17.625, 243.04


# Magnus form with the constants of WMO (Sonntag), worked by hand; least steel is 3 °C above.
@pytest.mark.parametrize(
    ("celsius", "humidity", "dew", "least_steel"),
    [
        (20, 60, 11.9955, 14.995),
        (20, 50, 9.2552, 12.255),
        (10, 80, 6.7060, 9.706),
        (5, 85, 2.6862, 5.686),
        (30, 55, 19.9719, 22.972),
        (16, 71, 10.7408, 13.741),
    ],
)
def test_dew_point_and_the_least_temperature_of_the_metal(celsius, humidity, dew, least_steel):
    found = dew_point(celsius, humidity)
    assert found == pytest.approx(dew, abs=5e-5)
    a, b = ALDUCHOV_ESKRIDGE
    gamma = log(humidity / 100) + a * celsius / (b + celsius)
    assert b * gamma / (a - gamma) == pytest.approx(dew, abs=0.01)
    assert relative_humidity(celsius, found) == pytest.approx(humidity, rel=1e-9)
    margin_alone = CoatingLimits(margin=3)
    just_warm = coating_verdict(margin_alone, air=celsius, humidity=humidity, steel=found + 3.0001)
    just_cold = coating_verdict(margin_alone, air=celsius, humidity=humidity, steel=found + 2.9999)
    assert just_warm.allowed
    assert not just_cold.allowed
    assert found + 3 == pytest.approx(least_steel, abs=5.1e-4)


# Pressure of saturated water vapour, kPa at °C. Source: CRC Handbook of Chemistry and Physics, 73rd
# edition (1992-93), "Vapor pressure of water", as printed at
# https://lcm91.tripod.com/documents/vp_H2O.htm
SATURATED = {
    **{0: 0.61129, 2: 0.70605, 5: 0.8726, 8: 1.0730, 10: 1.2281, 12: 1.4027, 15: 1.7056, 18: 2.0644},
    **{20: 2.3388, 22: 2.6447, 25: 3.1690, 28: 3.7818, 30: 4.2455, 35: 5.6267, 40: 7.3814},
}


def test_air_that_holds_what_a_colder_air_is_full_of_has_its_dew_point_there():
    """The dew point is where the vapour in the air would be saturated; Magnus lies with the table to 0.05 °C."""
    for dew, celsius in combinations(SATURATED, 2):
        humidity = 100 * SATURATED[dew] / SATURATED[celsius]
        assert dew_point(celsius, humidity) == pytest.approx(dew, abs=0.05), celsius
        assert relative_humidity(celsius, dew) == pytest.approx(humidity, rel=0.004), dew


# Printed to whole degrees: a coating maker's glossary (30 °C, 55 %),
# https://www.doerken.de/global/en/services/coatings/glossary/dew-point ; a chart in Fahrenheit
# (70 °F, 65 %), https://handypdf.com/pdf/dew-point-calculation-sample-chart ; a table of 5 °C and
# 10 % (20 °C and 30 °C), https://ru.scribd.com/doc/39380596/Dew-Point-Table ; an inspection course
# (16 °C, 71 %), from memory.
@pytest.mark.parametrize(
    ("celsius", "humidity", "published", "off"),
    [
        *((30, 55, 20, 0.5), (16, 71, 11, 0.5), ((70 - 32) / 1.8, 65, (57 - 32) / 1.8, 0.5)),
        *((20, 50, 9, 0.5), (20, 60, 12, 0.5), (20, 70, 14, 0.5), (20, 80, 16, 0.5), (20, 90, 18, 0.5)),
        *((30, 50, 18, 0.5), (30, 60, 21, 0.5), (30, 70, 24, 0.5), (30, 80, 26, 0.5), (30, 90, 28, 0.5)),
    ],
)
def test_dew_points_printed_in_whole_degrees(celsius, humidity, published, off):
    assert dew_point(celsius, humidity) == pytest.approx(published, abs=off)


def test_dew_point_in_fahrenheit():
    assert dew_point((70 - 32) / 1.8, 65) * 1.8 + 32 == pytest.approx(57.69, abs=5e-3)


def test_steel_at_thirteen_in_air_of_sixteen_and_seventy_one_per_cent_is_refused():
    # Inspection course on ambient conditions; limits of ISO 8502-4 as cited there.
    verdict = coating_verdict(PAINT_LIMITS, air=16, humidity=71, steel=13)
    assert not verdict.allowed
    assert verdict.margin == pytest.approx(2.26, abs=5e-3)
    assert [reason.kind for reason in verdict.reasons] == ["dew"]


# With metal as warm as the air, 3 °C above the dew point asks for less humidity than 85 %.
@pytest.mark.parametrize(("celsius", "humidity"), [(5, 80.95), (20, 82.88)])
def test_the_margin_is_stricter_than_the_humidity_limit(celsius, humidity):
    assert relative_humidity(celsius, celsius - 3) == pytest.approx(humidity, abs=5e-3)
    a_little_more = {"air": celsius, "humidity": humidity + 0.05, "steel": celsius}
    reasons = coating_verdict(PAINT_LIMITS, **a_little_more).reasons
    assert [reason.kind for reason in reasons] == ["dew"]


# Ideal gas law on the Magnus pressure; worked values.
@pytest.mark.parametrize(
    ("celsius", "humidity", "grams"),
    [(23, 50, 10.25), (10, 50, 4.69), (5, 50, 3.40), (0, 80, 3.88)],
)
def test_water_in_a_cubic_metre_of_air(celsius, humidity, grams):
    assert water_in_air(celsius, humidity) == pytest.approx(grams, abs=0.01)
