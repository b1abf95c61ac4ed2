"""The slots in which the weather lets a coat go on, as windows for the planner."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from builds.cure.engine.dew_point import (
    CoatingLimits,
    dew_point,
    relative_humidity,
    verdict_at_dew_point,
)
from builds.cure.engine.temperature import Temperature


@dataclass(frozen=True, slots=True)
class AirReading:
    """Air at a minute: its temperature (°C) and relative humidity (%), measured or forecast."""

    minute: float
    celsius: float
    humidity: float


@dataclass(frozen=True, slots=True)
class DewCourse:
    """Dew points (°C) at rising minutes: straight lines between, held before and after."""

    minutes: tuple[float, ...]
    dew_points: tuple[float, ...]

    @classmethod
    def of(cls, readings: Sequence[AirReading]) -> "DewCourse":
        """From readings in any order, at least one; DewPointError for air that cannot be."""
        if not readings:
            raise ValueError("Give at least one reading of the air.")
        by_minute = {r.minute: dew_point(r.celsius, r.humidity) for r in readings}
        minutes = tuple(sorted(by_minute))
        return cls(minutes, tuple(by_minute[minute] for minute in minutes))

    def bends(self, since: float, until: float) -> tuple[float, ...]:
        """The minutes of its readings strictly between two minutes."""
        return self.minutes[bisect_right(self.minutes, since) : bisect_left(self.minutes, until)]

    def at(self, minute: float) -> float:
        index = bisect_right(self.minutes, minute)
        if index == 0:
            return self.dew_points[0]
        if index == len(self.minutes):
            return self.dew_points[-1]
        begin, end = self.minutes[index - 1 : index + 1]
        first, last = self.dew_points[index - 1 : index + 1]
        return first + (last - first) * (minute - begin) / (end - begin)


def allowed_windows(
    limits: CoatingLimits,
    shop: Temperature,
    dew: DewCourse | None = None,
    *,
    slot_minutes: int,
    slots: int,
) -> list[tuple[int, int]]:
    """Half-open [from, to) slots in which a coat may go on throughout; slot 0 is at minute 0.

    shop is the temperature of the metal and of the air around it. Heating keeps the dew point and
    lowers the humidity, so `dew` may come from the air outside. Each slot is looked at where it
    begins and ends and wherever either course bends. Without `dew` only the minimum counts.
    A slot past the end of the temperature's course is not allowed.
    """
    good = [True] * slots
    known = min(float(slots * slot_minutes), shop.end)
    for slot in range(int(known // slot_minutes), slots):
        good[slot] = False
    for begin, end, shape in shop.pieces(0.0, known):
        first, last = int(begin // slot_minutes), math.ceil(end / slot_minutes)
        edges = [float(slot * slot_minutes) for slot in range(first + 1, last)]
        bends = dew.bends(begin, end) if dew else ()
        marks = sorted({begin, *edges, *bends})
        for since, until in pairwise([*marks, end]):
            slot = int(since // slot_minutes)
            good[slot] = good[slot] and all(
                _allowed(limits, shape.at(minute), dew, minute) for minute in (since, until)
            )
    return _runs(good)


def _allowed(limits: CoatingLimits, steel: float, dew: DewCourse | None, minute: float) -> bool:
    if dew is None:
        return limits.minimum is None or steel >= limits.minimum
    dew_here = dew.at(minute)
    humidity = relative_humidity(steel, dew_here)
    return verdict_at_dew_point(limits, dew=dew_here, humidity=humidity, steel=steel).allowed


def _runs(good: Sequence[bool]) -> list[tuple[int, int]]:
    runs, begin = [], None
    for slot, is_good in enumerate([*good, False]):
        if is_good and begin is None:
            begin = slot
        elif not is_good and begin is not None:
            runs.append((begin, slot))
            begin = None
    return runs
