"""What a thermometer said holds near its moment, and is forgotten as the hours go by."""

from collections.abc import Sequence
from itertools import pairwise

from builds.cure.engine.shop import ShopReading
from builds.cure.engine.temperature import Temperature

FADES_IN_MINUTES = 24 * 60.0  # weather lasts about a day; common practice, no source


def fading(readings: Sequence[ShopReading], expected: Temperature) -> list[ShopReading]:
    """The readings, and between them points of the expected course to which they fade back.

    A reading that is off the expected course bends it in a straight line from a day before it to
    a day after it, or to the next reading where that is nearer than two days. Readings later than
    the course is known are left out; of two in one minute the later given counts.
    """
    known = {reading.minute: reading for reading in readings if reading.minute <= expected.end}
    kept = [known[minute] for minute in sorted(known)]
    if not kept:
        return []

    def back(minute: float) -> ShopReading:
        return ShopReading(minute, expected.at(minute))

    points = [back(kept[0].minute - FADES_IN_MINUTES)]
    for one, two in pairwise(kept):
        points.append(one)
        if two.minute - one.minute >= 2 * FADES_IN_MINUTES:
            points.append(back(one.minute + FADES_IN_MINUTES))
            points.append(back(two.minute - FADES_IN_MINUTES))
    points += [kept[-1], back(min(expected.end, kept[-1].minute + FADES_IN_MINUTES))]
    return points
