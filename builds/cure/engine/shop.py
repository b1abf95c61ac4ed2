"""The shop's temperature: a forecast, the hours it is heated, and what was read off the wall."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builds.cure.engine.temperature import (
    COLDEST,
    WARMEST,
    Held,
    Piece,
    Ramp,
    Shape,
    Temperature,
    TemperatureError,
)

# A swing bent by a growing correction is drawn in straight lines this long: at 15 minutes and a
# swing of 8 °C either way they are within 0.005 °C of it.
STRAIGHT_MINUTES = 15.0


@dataclass(frozen=True, slots=True)
class Heat:
    """From minute `begin` to `end` the shop is at `celsius` °C or warmer."""

    begin: float
    end: float
    celsius: float


@dataclass(frozen=True, slots=True)
class ShopReading:
    """A temperature (°C) that somebody or something measured at a minute."""

    minute: float
    celsius: float


def shop_temperature(
    forecast: Temperature,
    *,
    heats: Sequence[Heat] = (),
    readings: Sequence[ShopReading] = (),
    keep_correction: bool = False,
) -> Temperature:
    """The forecast, heated, and corrected to pass through every reading.

    Heated hours lift the temperature to a floor at once (state the hours at temperature, not those
    of the heater). Up to the last reading the course passes through the readings: the correction
    found at each is blended in a straight line to the next, and the first reaches back. After the
    last it is dropped, or kept (keep_correction) in the unheated forecast for good; heated hours
    then still reach their floor. Of two readings in one minute the later given counts.
    TemperatureError for a reading past the forecast's end or out of all reason. An estimate of our
    own, no source.
    """
    heated = _with_floors(forecast, heats)
    by_minute = {reading.minute: reading.celsius for reading in readings}
    if not by_minute:
        return heated
    for minute, celsius in by_minute.items():
        if not COLDEST <= celsius <= WARMEST or not math.isfinite(minute):
            raise TemperatureError(f"A reading of {celsius:g} °C cannot be; check the unit.")
    off = [(minute, by_minute[minute] - heated.at(minute)) for minute in sorted(by_minute)]
    last_minute, last_off = off[-1]
    ahead = heated
    if keep_correction:
        ahead = _with_floors(_shifted(forecast, last_off), heats)
    return Temperature.of_pieces([*_bent(heated, off), *ahead.pieces(last_minute)])


def _shifted(temperature: Temperature, by: float) -> Temperature:
    shapes = tuple(shape.shifted(by) for shape in temperature.shapes)
    return Temperature(temperature.begins, shapes, temperature.end)


def _with_floors(temperature: Temperature, heats: Iterable[Heat]) -> Temperature:
    """Lifted to every floor; stretches that do not overlap are laid in one pass."""
    waiting = sorted((heat for heat in heats if heat.begin < heat.end), key=lambda h: h.begin)
    while waiting:
        apart: list[Heat] = []
        overlapping: list[Heat] = []
        for heat in waiting:
            fits = not apart or heat.begin >= apart[-1].end
            (apart if fits else overlapping).append(heat)
        temperature = Temperature.of_pieces(_lifted(temperature, apart))
        waiting = overlapping
    return temperature


def _lifted(temperature: Temperature, heats: Sequence[Heat]) -> Iterator[Piece]:
    since = -math.inf
    for heat in heats:
        yield from temperature.pieces(since, heat.begin)
        for begin, end, shape in temperature.pieces(heat.begin, heat.end):
            yield from _at_least(heat.celsius, begin, end, shape)
        since = heat.end
    yield from temperature.pieces(since)


def _at_least(floor: float, begin: float, end: float, shape: Shape) -> Iterator[Piece]:
    first, last = shape.at(begin), shape.at(end)
    if min(first, last) >= floor:
        yield begin, end, shape
    elif max(first, last) <= floor:
        yield begin, end, Held(floor)
    else:
        middle = min(end, max(begin, shape.when(floor)))
        yield begin, middle, Held(floor) if first < last else shape
        yield middle, end, shape if first < last else Held(floor)


def _bent(temperature: Temperature, off: Sequence[tuple[float, float]]) -> Iterator[Piece]:
    """The course up to the last correction (minute, °C), passing through all of them."""
    for begin, end, shape in temperature.pieces(until=off[0][0]):
        yield begin, end, shape.shifted(off[0][1])
    for (since, first), (until, last) in pairwise(off):
        slope = (last - first) / (until - since)
        for begin, end, shape in temperature.pieces(since, until):
            if slope == 0:
                yield begin, end, shape.shifted(first)
                continue
            for a, b in _cut(begin, end, shape):
                low = shape.at(a) + first + slope * (a - since)
                high = shape.at(b) + first + slope * (b - since)
                yield a, b, Held(low) if low == high else Ramp(a, b, low, high)


def _cut(begin: float, end: float, shape: Shape) -> Iterator[tuple[float, float]]:
    """One straight line where the shape is straight, short ones where it swings."""
    if isinstance(shape, (Held, Ramp)):
        yield begin, end
        return
    count = math.ceil((end - begin) / STRAIGHT_MINUTES)
    cuts = [begin + (end - begin) * k / count for k in range(count)] + [end]
    yield from pairwise(cuts)
