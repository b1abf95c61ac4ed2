"""Air, humidity and metal: the dew point, and whether a coat may go on now."""

import math
from dataclasses import dataclass

MAGNUS_WMO = (17.62, 243.12)
_LOWEST, _HIGHEST = -45.0, 60.0
_SATURATION_AT_ZERO = 6.112  # hPa
_GRAM_KELVIN_PER_HPA = 216.68  # g·K/(m³·hPa): 100 Pa over the gas constant of water vapour


class DewPointError(ValueError):
    """Air that cannot be what was said; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class CoatingLimits:
    """What applying a product asks for; None means that it does not matter.

    minimum: °C of the metal. margin: °C the metal must be above the dew point, at least.
    humidity: % that the air's relative humidity must stay below.
    """

    minimum: float | None = None
    margin: float | None = None
    humidity: float | None = None


# The usual limits for paint on steel: ISO 8502-4 and ISO 12944-7 as cited in trade.
PAINT_MARGIN = 3.0  # °C
PAINT_HUMIDITY = 85.0  # %
PAINT_LIMITS = CoatingLimits(margin=PAINT_MARGIN, humidity=PAINT_HUMIDITY)

# Steel warms slower than the air around it. Common practice, no source.
SWEATS = "Nobody has measured the metal: cold steel in warming air stays colder than the air, and sweats."


@dataclass(frozen=True, slots=True)
class Refusal:
    """One thing in the way: `kind` is cold, dew or humid; figures in °C or %."""

    kind: str
    measured: float
    limit: float


@dataclass(frozen=True, slots=True)
class CoatingVerdict:
    """Whether a coat may go on; temperatures in °C, `reasons` empty when it may."""

    margin: float
    reasons: tuple[Refusal, ...]

    @property
    def allowed(self) -> bool:
        return not self.reasons


def dew_point(celsius: float, humidity: float) -> float:
    """Dew point (°C) of air at a temperature (°C) and relative humidity (%, above 0 to 100).

    γ = ln(RH/100) + aT/(b+T); T_d = bγ/(a−γ). Source: Magnus form, constants of WMO (Sonntag);
    those of Alduchov and Eskridge differ by less than 0.01 °C in a garage.
    DewPointError outside −45 to 60 °C, where the constants hold, or for an impossible humidity.
    """
    _check_air(celsius, humidity)
    a, b = MAGNUS_WMO
    gamma = math.log(humidity / 100) + a * celsius / (b + celsius)
    return b * gamma / (a - gamma)


def relative_humidity(celsius: float, dew: float) -> float:
    """Relative humidity (%, at most 100) of air at a temperature and a dew point (both °C).

    What becomes of outdoor air in a warmer garage: its dew point stays. Source: Magnus form.
    """
    a, b = MAGNUS_WMO
    return min(100.0, 100 * math.exp(a * dew / (b + dew) - a * celsius / (b + celsius)))


def water_in_air(celsius: float, humidity: float) -> float:
    """Grams of water in a cubic metre of air at a temperature (°C) and relative humidity (%).

    Source: ideal gas law on the Magnus pressure (6.112 hPa at 0 °C, WMO). DewPointError as above.
    """
    _check_air(celsius, humidity)
    a, b = MAGNUS_WMO
    pressure = humidity / 100 * _SATURATION_AT_ZERO * math.exp(a * celsius / (b + celsius))
    return _GRAM_KELVIN_PER_HPA * pressure / (celsius + 273.15)


def verdict_at_dew_point(limits: CoatingLimits, *, dew: float, humidity: float, steel: float) -> CoatingVerdict:
    """May a coat go on? The dew point of the air and the steel's own temperature in °C, humidity in %.

    The steel may be exactly at its minimum or exactly the margin above the dew point; the humidity must be
    below its limit. Source: ISO 8502-4 as cited in trade.
    """
    margin = steel - dew
    reasons = []
    if limits.minimum is not None and steel < limits.minimum:
        reasons.append(Refusal("cold", steel, limits.minimum))
    if limits.margin is not None and margin < limits.margin:
        reasons.append(Refusal("dew", margin, limits.margin))
    if limits.humidity is not None and humidity >= limits.humidity:
        reasons.append(Refusal("humid", humidity, limits.humidity))
    return CoatingVerdict(margin, tuple(reasons))


def _check_air(celsius: float, humidity: float) -> None:
    if not _LOWEST <= celsius <= _HIGHEST:
        raise DewPointError(f"Air at {celsius:g} °C is not between {_LOWEST:g} and {_HIGHEST:g} °C; check the unit.")
    if not 0 < humidity <= 100:
        raise DewPointError(f"A relative humidity of {humidity:g} % is not above 0 and at most 100 %.")
