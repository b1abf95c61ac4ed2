"""A drawing to scale as plain data: lines, rings and labels in millimetres, x to the right, y down."""

from collections.abc import Iterable
from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points; `look` is how it is drawn: part, thin, dash, strong, good, stop."""

    points: tuple[Point, ...]
    look: str = "part"
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle about a point."""

    at: Point
    radius: float
    look: str = "part"


@dataclass(frozen=True, slots=True)
class Label:
    """Words at a point; `anchor` is the end that stands there: start, middle or end."""

    at: Point
    words: str
    anchor: str = "middle"
    look: str = "label"


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes with a title and a description in words for who cannot see them."""

    title: str
    words: str
    shapes: tuple[Line | Ring | Label, ...]

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, top, width and height of everything but what labels stick out, never flat."""
        xs, ys = zip(*_corners(self.shapes), strict=True)
        left, top = min(xs), min(ys)
        return left, top, max(max(xs) - left, 1e-6), max(max(ys) - top, 1e-6)


def _corners(shapes: Iterable[Line | Ring | Label]) -> Iterable[Point]:
    for shape in shapes:
        if isinstance(shape, Line):
            yield from shape.points
        elif isinstance(shape, Ring):
            (x, y), reach = shape.at, shape.radius
            yield from ((x - reach, y - reach), (x + reach, y + reach))
        else:
            yield shape.at
