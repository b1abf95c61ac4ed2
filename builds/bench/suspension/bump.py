"""Bump steer in space: double wishbone and strut, exact at every wheel travel.

The lower joint turns about the lower axis; what holds the upright above follows from it in closed
form, the tie rod then fixes the upright. The travel asked for is that of the wheel's centre. Source
of the approach: constraint equations of a spatial linkage, with the branch kept from ride height
(Kodati & Bandyopadhyay, INaCoMM 2013); Dixon, *Suspension Geometry and Computation* (from memory).
"""

import math
from dataclasses import dataclass, replace
from functools import cached_property

from builds.bench.suspension.space import (
    ApartError,
    Circle,
    Vector,
    dot,
    frame,
    minus,
    plus,
    side_of,
    three_spheres,
    times,
    unit,
)

STEP = 0.1  # mm of travel about ride height, for a slope


@dataclass(frozen=True, slots=True)
class WheelPose:
    """Degrees at a travel (mm, bump above 0): toe-in, camber with the top in below 0, caster, inclination."""

    travel: float
    toe: float
    camber: float
    caster: float
    inclination: float


@dataclass(frozen=True)
class Corner:
    """A left corner, mm: lower axis and joint, tie rod, wheel centre; degrees of toe-in and camber as it stands.

    `upper` is the upper axis (two points) and joint of a wishbone; `strut` the top mount and a point
    low on the strut's axis, which the upright carries. One of the two.
    """

    lower: tuple[Vector, Vector, Vector]
    rod: tuple[Vector, Vector]
    wheel: Vector
    upper: tuple[Vector, Vector, Vector] | None = None
    strut: tuple[Vector, Vector] | None = None
    toe: float = 0.0
    camber: float = 0.0

    @cached_property
    def lower_circle(self) -> Circle:
        return Circle(*self.lower)

    @cached_property
    def upper_circle(self) -> Circle:
        if self.upper is None:
            raise ApartError
        return Circle(*self.upper)

    @property
    def lower_joint(self) -> Vector:
        return self.lower[2]

    @property
    def above(self) -> Vector:
        """What holds the upright above, as it stands: the upper joint, or the top mount."""
        return self.upper[2] if self.upper else self._strut[0]

    @property
    def _strut(self) -> tuple[Vector, Vector]:
        if self.strut is None:
            raise ApartError
        return self.strut

    @cached_property
    def _branch(self) -> int:
        """Which of the two places of the upper joint is the one that stands."""
        plus_one, minus_one = (
            self.upper_circle.at(angle)
            for angle in self.upper_circle.reach(self.lower_joint, math.dist(self.above, self.lower_joint))
        )
        return 0 if math.dist(plus_one, self.above) <= math.dist(minus_one, self.above) else 1

    def _held(self, joint: Vector) -> tuple[Vector, Vector]:
        """Where the upright is held above with its lower joint there, and which of its own points that is."""
        if self.upper:
            angles = self.upper_circle.reach(joint, math.dist(self.above, self.lower_joint))
            return self.upper_circle.at(angles[self._branch]), self.above
        top, low = self._strut
        axis = unit(minus(top, low))
        foot = plus(low, times(axis, dot(minus(self.lower_joint, low), axis)))
        square = math.dist(top, joint) ** 2 - math.dist(foot, self.lower_joint) ** 2
        if square < 0:
            raise ApartError
        way = 1 if dot(minus(top, foot), axis) >= 0 else -1
        return top, plus(foot, times(axis, way * math.sqrt(square)))

    def _moved(self, angle: float) -> tuple[tuple[Vector, Vector, Vector], tuple[Vector, Vector, Vector]]:
        """Lower joint, upper hold and outer rod joint of the upright: as it stands, and moved."""
        inner, outer = self.rod
        joint = self.lower_circle.at(angle)
        held, own = self._held(joint)
        side = side_of((self.lower_joint, self.above, inner), outer)
        radii = (math.dist(outer, self.lower_joint), math.dist(outer, own), math.dist(outer, inner))
        rod = three_spheres((joint, held, inner), radii, side)
        return (self.lower_joint, own, outer), (joint, held, rod)

    def _carried(self, angle: float, arrow: Vector) -> Vector:
        """A direction of the upright after its lower arm has turned that far."""
        before, after = self._moved(angle)
        parts = [dot(arrow, along) for along in frame(*before)]
        ex, ey, ez = frame(*after)
        return plus(plus(times(ex, parts[0]), times(ey, parts[1])), times(ez, parts[2]))

    def _travel(self, angle: float) -> float:
        """mm that the wheel's centre rises."""
        joint = self.lower_circle.at(angle)
        return joint[2] + self._carried(angle, minus(self.wheel, self.lower_joint))[2] - self.wheel[2]

    def _angle(self, travel: float, start: float) -> float:
        """Radians of the lower arm for that travel, from a guess. ApartError where it cannot get there."""
        angle, step = start, 1e-7
        for _ in range(60):
            off = self._travel(angle) - travel
            if abs(off) < 1e-11:
                break
            slope = (self._travel(angle + step) - self._travel(angle - step)) / (2 * step)
            if abs(slope) < 1e-6:
                raise ApartError
            angle -= max(-0.2, min(0.2, off / slope))
        if abs(self._travel(angle) - travel) > 1e-9:
            raise ApartError
        return angle

    @property
    def spindle(self) -> Vector:
        """Unit vector outboard along the axle, as it stands."""
        toe, camber = math.radians(self.toe), math.radians(self.camber)
        return math.sin(toe) * math.cos(camber), math.cos(toe) * math.cos(camber), -math.sin(camber)

    def pose(self, travel: float, start: float = 0.0) -> tuple[WheelPose, float]:
        """How the wheel stands at a travel, and the arm's angle to start the next from."""
        angle = self._angle(travel, start) if travel else 0.0
        sx, sy, sz = self._carried(angle, self.spindle)
        _, (joint, held, _) = self._moved(angle)
        ax, ay, az = minus(held, joint)
        return (
            WheelPose(
                travel,
                math.degrees(math.atan2(sx, sy)),
                -math.degrees(math.asin(max(-1.0, min(1.0, sz)))),
                math.degrees(math.atan2(-ax, az)),
                math.degrees(math.atan2(-ay, az)),
            ),
            angle,
        )

    def sweep(self, travels: list[float]) -> list[WheelPose]:
        """How it stands at each travel, each solved from the one nearer to ride height."""
        poses: dict[float, WheelPose] = {}
        for way in (1, -1):
            start = 0.0
            for travel in sorted((one for one in travels if one * way > 0 or (not one and way > 0)), key=abs):
                poses[travel], start = self.pose(travel, start)
        return [poses[travel] for travel in travels]

    def slope(self) -> float:
        """Degrees of toe-in a mm of bump, at ride height."""
        return (self.pose(STEP)[0].toe - self.pose(-STEP)[0].toe) / (2 * STEP)

    def shimmed(self, inner: tuple[float, float] = (0.0, 0.0), outer: tuple[float, float] = (0.0, 0.0)) -> "Corner":
        """With the rod's joints that much farther out and higher (mm), the rod set so that toe stays as it stands."""
        (ix, iy, iz), (ox, oy, oz) = self.rod
        return replace(self, rod=((ix, iy + inner[0], iz + inner[1]), (ox, oy + outer[0], oz + outer[1])))

    def raised(self, inner: float = 0.0, outer: float = 0.0) -> "Corner":
        return self.shimmed((0.0, inner), (0.0, outer))

    def lengths(self) -> dict[str, float]:
        """mm of each link, by name."""
        links = {
            "lower front": math.dist(self.lower[0], self.lower[2]),
            "lower rear": math.dist(self.lower[1], self.lower[2]),
        }
        if self.upper:
            links["upper front"] = math.dist(self.upper[0], self.upper[2])
            links["upper rear"] = math.dist(self.upper[1], self.upper[2])
        return links | {"tie rod": math.dist(*self.rod)}


def inner_height_without_slope(corner: Corner) -> float | None:
    """mm by which the inner joint is to be raised for no slope at ride height; None where none is within 100."""
    low, high = 0.0, 1.0
    first, second = corner.slope(), corner.raised(inner=high).slope()
    for _ in range(40):
        if abs(second) < 1e-13 or second == first:
            break
        low, high, first = high, high - second * (high - low) / (second - first), second
        if abs(high) > 100:
            return None
        second = corner.raised(inner=high).slope()
    return high if abs(second) < 1e-9 else None
