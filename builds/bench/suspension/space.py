"""Points and directions in space, mm: x forward, y to the left, z up (ISO 8855)."""

import math

Vector = tuple[float, float, float]


class ApartError(ValueError):
    """The links do not reach each other there."""


def plus(one: Vector, other: Vector) -> Vector:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def minus(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def times(one: Vector, factor: float) -> Vector:
    return one[0] * factor, one[1] * factor, one[2] * factor


def dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def cross(one: Vector, other: Vector) -> Vector:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )


def unit(one: Vector) -> Vector:
    """ApartError where two points that must be apart are one."""
    size = math.sqrt(dot(one, one))
    if size < 1e-9:
        raise ApartError
    return times(one, 1 / size)


class Circle:
    """The circle on which `point` turns about the axis through two points; angle 0 is where it stands."""

    def __init__(self, first: Vector, second: Vector, point: Vector) -> None:
        self.axis = unit(minus(second, first))
        self.centre = plus(first, times(self.axis, dot(minus(point, first), self.axis)))
        arm = minus(point, self.centre)
        self.radius = math.sqrt(dot(arm, arm))
        self.first = unit(arm)
        self.second = cross(self.axis, self.first)

    def at(self, angle: float) -> Vector:
        along = plus(times(self.first, math.cos(angle)), times(self.second, math.sin(angle)))
        return plus(self.centre, times(along, self.radius))

    def reach(self, centre: Vector, distance: float) -> tuple[float, float]:
        """The two angles at which it is that far from a point. ApartError where it never is."""
        away = minus(self.centre, centre)
        a, b = 2 * self.radius * dot(away, self.first), 2 * self.radius * dot(away, self.second)
        wanted = distance**2 - dot(away, away) - self.radius**2
        size = math.hypot(a, b)
        if size < 1e-12 or abs(wanted) > size:
            raise ApartError
        middle, half = math.atan2(b, a), math.acos(wanted / size)
        return middle + half, middle - half


def three_spheres(centres: tuple[Vector, Vector, Vector], radii: tuple[float, float, float], side: int) -> Vector:
    """The point that far from three others, on one `side` (1 or -1) of their plane. ApartError where there is none."""
    one, two, three = centres
    ex = unit(minus(two, one))
    across = minus(three, one)
    i = dot(ex, across)
    ey = unit(minus(across, times(ex, i)))
    ez = cross(ex, ey)
    d, j = math.dist(one, two), dot(ey, across)
    x = (radii[0] ** 2 - radii[1] ** 2 + d**2) / (2 * d)
    y = (radii[0] ** 2 - radii[2] ** 2 + i**2 + j**2) / (2 * j) - i / j * x
    square = radii[0] ** 2 - x**2 - y**2
    if square < -1e-9:
        raise ApartError
    z = side * math.sqrt(max(0.0, square))
    return plus(one, plus(plus(times(ex, x), times(ey, y)), times(ez, z)))


def side_of(centres: tuple[Vector, Vector, Vector], point: Vector) -> int:
    """On which side of the plane of three points a fourth lies, 1 or -1."""
    one, two, three = centres
    return 1 if dot(cross(minus(two, one), minus(three, one)), minus(point, one)) >= 0 else -1


def frame(one: Vector, two: Vector, three: Vector) -> tuple[Vector, Vector, Vector]:
    """Three directions that a body with these points carries along."""
    ex = unit(minus(two, one))
    across = minus(three, one)
    ey = unit(minus(across, times(ex, dot(across, ex))))
    return ex, ey, cross(ex, ey)
