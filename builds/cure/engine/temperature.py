"""Temperature over elapsed time: pieces that are held, straight, or half a cosine wave."""

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

COLDEST, WARMEST = -60.0, 300.0


class TemperatureError(ValueError):
    """A course of temperature that cannot be; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Held:
    """The same temperature (°C) throughout."""

    celsius: float

    def at(self, minute: float) -> float:
        return self.celsius

    def when(self, celsius: float) -> float:
        """A held temperature crosses nothing."""
        return math.nan

    def shifted(self, by: float) -> "Held":
        return Held(self.celsius + by)


@dataclass(frozen=True, slots=True)
class Ramp:
    """A straight line from `first` °C at minute `begin` to `last` °C at minute `end`."""

    begin: float
    end: float
    first: float
    last: float

    def at(self, minute: float) -> float:
        share = (minute - self.begin) / (self.end - self.begin)
        return self.first + (self.last - self.first) * share

    def when(self, celsius: float) -> float:
        """The minute at which it has a temperature that lies between its ends."""
        share = (celsius - self.first) / (self.last - self.first)
        return self.begin + (self.end - self.begin) * share

    def shifted(self, by: float) -> "Ramp":
        return Ramp(self.begin, self.end, self.first + by, self.last + by)


@dataclass(frozen=True, slots=True)
class Swing:
    """Half a cosine wave from `first` °C at minute `begin` to `last` °C at minute `end`."""

    begin: float
    end: float
    first: float
    last: float

    def at(self, minute: float) -> float:
        angle = math.pi * (minute - self.begin) / (self.end - self.begin)
        return self.first + (self.last - self.first) * (1 - math.cos(angle)) / 2

    def when(self, celsius: float) -> float:
        """The minute at which it has a temperature that lies between its ends."""
        turned = 1 - 2 * (celsius - self.first) / (self.last - self.first)
        angle = math.acos(min(1.0, max(-1.0, turned)))
        return self.begin + (self.end - self.begin) * angle / math.pi

    def shifted(self, by: float) -> "Swing":
        return Swing(self.begin, self.end, self.first + by, self.last + by)


Shape = Held | Ramp | Swing
Piece = tuple[float, float, Shape]


@dataclass(frozen=True, slots=True)
class Temperature:
    """A course of temperature: shapes[i] from begins[i] up to begins[i + 1], the last up to `end`.

    Minutes count from an origin that the caller picks (the planner's slot 0, say) and may be
    negative. The first piece reaches back for ever. Past `end` nothing is known.
    """

    begins: tuple[float, ...]
    shapes: tuple[Shape, ...]
    end: float = math.inf

    @classmethod
    def fixed(cls, celsius: float) -> "Temperature":
        """The same temperature (°C) for ever."""
        return cls((-math.inf,), (Held(_sane(celsius)),))

    @classmethod
    def steps(cls, steps: Iterable[tuple[float, float]]) -> "Temperature":
        """(minutes, °C) one after another from minute 0; known no further than the last."""
        begins, shapes, minute = [], [], 0.0
        for minutes, celsius in steps:
            if not minutes > 0:
                raise TemperatureError("Every step of a temperature course must last some time.")
            begins.append(minute)
            shapes.append(Held(_sane(celsius)))
            minute += minutes
        if not shapes:
            raise TemperatureError("A temperature course needs at least one step.")
        return cls((-math.inf, *begins[1:]), tuple(shapes), minute)

    @classmethod
    def through(cls, points: Sequence[tuple[float, float]], *, smooth: bool) -> "Temperature":
        """(minute, °C) in rising order, joined by half cosines or straight lines.

        Held at the first point before it; known no further than the last.
        """
        if not points:
            raise TemperatureError("A temperature course needs at least one point.")
        join = Swing if smooth else Ramp
        begins: list[float] = [-math.inf]
        shapes: list[Shape] = [Held(_sane(points[0][1]))]
        for (begin, first), (end, last) in pairwise(points):
            if not begin < end:
                raise TemperatureError("The points of a temperature course must follow in time.")
            begins.append(begin)
            level = first == _sane(last)
            shapes.append(Held(first) if level else join(begin, end, first, last))
        return cls(tuple(begins), tuple(shapes), points[-1][0])

    @classmethod
    def of_pieces(cls, pieces: Iterable[Piece]) -> "Temperature":
        """From pieces (from, until, shape) that touch, the first from −∞; empty ones go."""
        kept = [piece for piece in pieces if piece[0] < piece[1]]
        return cls(tuple(p[0] for p in kept), tuple(p[2] for p in kept), kept[-1][1])

    def at(self, minute: float) -> float:
        """°C at a minute; at a jump the later value. TemperatureError past the end."""
        if minute > self.end:
            raise TemperatureError("The temperature is not known as far ahead as that.")
        return self.shapes[max(0, bisect_right(self.begins, minute) - 1)].at(minute)

    def pieces(self, since: float = -math.inf, until: float = math.inf) -> Iterator[Piece]:
        """The pieces (from, until, shape) between two minutes, no further than the end."""
        until = min(until, self.end)
        for index in range(max(0, bisect_right(self.begins, since) - 1), len(self.begins)):
            begin = max(since, self.begins[index])
            if begin >= until:
                return
            is_last = index + 1 == len(self.begins)
            end = until if is_last else min(until, self.begins[index + 1])
            if begin < end:
                yield begin, end, self.shapes[index]


def _sane(celsius: float) -> float:
    if not COLDEST <= celsius <= WARMEST:
        raise TemperatureError(f"{celsius:g} °C is no temperature for a garage; check the number and the unit.")
    return celsius
