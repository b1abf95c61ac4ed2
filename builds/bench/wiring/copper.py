"""Copper conductors: American gauges and square millimetres, resistance, and what they may carry."""

import math
from dataclasses import dataclass

# Ω·mm²/m at 20 °C, 1/58: the International Annealed Copper Standard, NBS Handbook 100.
RESISTIVITY = 1 / 58
# Per kelvin from 20 °C. From memory.
WARMING = 0.00393
COLD = 20.0


@dataclass(frozen=True, slots=True)
class Size:
    """A conductor: `ohms` per metre at 20 °C; amperes it may carry `outside` and `inside` an engine bay, 0 unknown."""

    slug: str
    name: str
    area: float
    ohms: float
    outside: float = 0
    inside: float = 0


def gauge_diameter(gauge: int) -> float:
    """mm of an American gauge. Source: ASTM B258, 0.127 · 92^((36 − n)/39)."""
    return 0.127 * float(92 ** ((36 - gauge) / 39))


def gauge_area(gauge: int) -> float:
    """mm² of an American gauge."""
    return math.pi / 4 * gauge_diameter(gauge) ** 2


def warm_factor(degrees: float) -> float:
    """How much more a conductor at that temperature (°C) resists than at 20 °C."""
    return 1 + WARMING * (degrees - COLD)


# A of one conductor with 105 °C insulation, outside and inside an engine space, by gauge. Source: ABYC E-11,
# 33 CFR 183.425. A size in mm² may carry what the next smaller gauge may.
_CARRIES = {
    18: (20, 17),
    16: (25, 21),
    14: (35, 30),
    12: (45, 38),
    10: (60, 51),
    8: (80, 68),
    6: (120, 102),
    4: (160, 136),
    2: (210, 178),
}
# mΩ/m at 20 °C, the most that flexible cable (class 5, plain copper) may have. Source: IEC 60228.
_CLASS_5 = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4.0: 4.95,
    6.0: 3.30,
    10.0: 1.91,
    16.0: 1.21,
    25.0: 0.780,
}


def _of_area(area: float) -> tuple[float, float]:
    """What the largest gauge that is no larger may carry; unknown below the smallest in the table."""
    smaller = [gauge for gauge in _CARRIES if gauge_area(gauge) <= area]
    return _CARRIES[min(smaller)] if smaller else (0, 0)


METRIC = tuple(
    Size(f"{area:g}", f"{area:g} mm²", area, milliohms / 1000, *_of_area(area)) for area, milliohms in _CLASS_5.items()
)
AMERICAN = tuple(
    Size(
        f"awg{gauge}", f"{gauge} AWG", gauge_area(gauge), RESISTIVITY / gauge_area(gauge), *_CARRIES.get(gauge, (0, 0))
    )
    for gauge in range(20, 0, -2)
)
SIZES = {size.slug: size for size in (*METRIC, *AMERICAN)}


def voltage_drop(amps: float, metres: float, size: Size, degrees: float = COLD) -> float:
    """V lost over a conductor there and back (`metres` in all) that carries `amps` at that temperature (°C)."""
    return amps * metres * size.ohms * warm_factor(degrees)


def area_for_drop(amps: float, metres: float, volts: float, degrees: float = COLD) -> float:
    """mm² of plain copper that loses `volts` over `metres` there and back; flexible cable wants more."""
    return RESISTIVITY * warm_factor(degrees) * metres * amps / volts
