"""The steering linkage in plan view, solved exactly: rack, tie rods, arms, both wheels.

x is forward, y to the left, mm; wheels turn left for angles above 0. Source of the model: a four-bar
linkage a side; Norton, *Design of Machinery* (from memory) for the transmission angle, ISO 8855:2011
7.1.9 for Ackermann. King-pin inclination, caster and bump are left out.
"""

import math
from dataclasses import dataclass
from functools import cached_property

LEFT, RIGHT = 1, -1


class OverCentreError(ValueError):
    """The rack cannot get there: the linkage has locked over centre before."""


@dataclass(frozen=True)
class Linkage:
    """A rack steering.

    `kingpins` between the king-pin axes, `arm` its length, `arm_in` degrees by which its tip points
    inboard, `inner` between the inner joints, `rack` how far the rack lies from the king-pin axes
    the way that the arms point, `forward` whether they point forward; `aside` how far to the left
    the rack lies of its middle while the wheels point ahead; `longer` by how much each tie rod is
    longer than it takes to set them straight. mm and degrees.
    """

    kingpins: float
    arm: float
    arm_in: float
    inner: float
    rack: float
    forward: bool = False
    aside: float = 0.0
    longer: float = 0.0

    @property
    def ahead(self) -> float:
        """x of the rack."""
        return self.rack if self.forward else -self.rack

    def pivot(self, side: int) -> tuple[float, float]:
        return 0.0, side * self.kingpins / 2

    def joint(self, side: int, moved: float = 0.0) -> tuple[float, float]:
        """The inner joint when the rack has moved that far to the left."""
        return self.ahead, side * self.inner / 2 + self.aside + moved

    @cached_property
    def straight(self) -> dict[int, float]:
        """Direction of each arm while its wheel points ahead, radians."""
        beta = math.radians(self.arm_in)
        way = 1 if self.forward else -1
        return {side: math.atan2(-side * math.sin(beta), way * math.cos(beta)) for side in (LEFT, RIGHT)}

    def tip(self, side: int, direction: float) -> tuple[float, float]:
        x, y = self.pivot(side)
        return x + self.arm * math.cos(direction), y + self.arm * math.sin(direction)

    @cached_property
    def rods(self) -> dict[int, float]:
        """Length of each tie rod, mm."""
        return {
            side: math.dist(self.tip(side, self.straight[side]), self.joint(side)) + self.longer
            for side in (LEFT, RIGHT)
        }

    @cached_property
    def branch(self) -> dict[int, int]:
        """On which side of the line from pivot to inner joint the arm stands, kept from straight ahead."""
        return {side: 1 if self._beyond(side) >= 0 else -1 for side in (LEFT, RIGHT)}

    def _beyond(self, side: int) -> float:
        (px, py), (jx, jy) = self.pivot(side), self.joint(side)
        return _wrapped(self.straight[side] - math.atan2(jy - py, jx - px))

    def _reach(self, side: int, moved: float) -> tuple[float, float]:
        """Distance and direction from pivot to inner joint."""
        (px, py), (jx, jy) = self.pivot(side), self.joint(side, moved)
        return math.hypot(jx - px, jy - py), math.atan2(jy - py, jx - px)

    def direction(self, side: int, moved: float) -> float:
        """Of the arm, radians. OverCentreError where the rack cannot get there."""
        far, towards = self._reach(side, moved)
        if far == 0:
            raise OverCentreError
        cosine = (self.arm**2 + far**2 - self.rods[side] ** 2) / (2 * self.arm * far)
        if not -1 <= cosine <= 1:
            raise OverCentreError
        return towards + self.branch[side] * math.acos(cosine)

    def angle(self, side: int, moved: float) -> float:
        """Degrees that the wheel is turned to the left with the rack moved that far to the left."""
        return math.degrees(_wrapped(self.direction(side, moved) - self.straight[side]))

    def transmission(self, side: int, moved: float) -> float:
        """Degrees between arm and tie rod at the outer joint; 0 or 180 is over centre."""
        far, _ = self._reach(side, moved)
        rod = self.rods[side]
        cosine = (self.arm**2 + rod**2 - far**2) / (2 * self.arm * rod)
        if not -1 <= cosine <= 1:
            raise OverCentreError
        return math.degrees(math.acos(cosine))

    def margin(self, moved: float) -> float:
        """Degrees that the nearer wheel is from over centre."""
        angles = [self.transmission(side, moved) for side in (LEFT, RIGHT)]
        return min(min(angle, 180 - angle) for angle in angles)

    def rod_gain(self, side: int, moved: float) -> float:
        """Radians of the wheel a mm of tie-rod length, never below 0. Exact, from virtual work."""
        sine = math.sin(math.radians(self.transmission(side, moved)))
        if sine < 1e-12:
            raise OverCentreError
        return 1 / (self.arm * sine)

    def gain(self, side: int, moved: float) -> float:
        """Radians of the wheel a mm of rack: the tie rod's share of it that lies along the rack."""
        (tx, ty), (jx, jy) = self.tip(side, self.direction(side, moved)), self.joint(side, moved)
        return abs(jy - ty) / math.hypot(jx - tx, jy - ty) * self.rod_gain(side, moved)

    def toggle(self, way: int) -> float:
        """mm of rack, the way that turns the wheels (LEFT, RIGHT), at which the first wheel is over centre."""
        nearest = math.inf
        towards = self.towards(way)
        for side in (LEFT, RIGHT):
            (px, py), (jx, jy) = self.pivot(side), self.joint(side)
            for far in (self.arm + self.rods[side], abs(self.rods[side] - self.arm)):
                square = far**2 - (jx - px) ** 2
                if square < 0:
                    continue
                for y in (py + math.sqrt(square), py - math.sqrt(square)):
                    travel = towards * (y - jy)
                    if travel > 1e-9:
                        nearest = min(nearest, travel)
        return nearest

    def towards(self, way: int) -> int:
        """Which way the rack moves, 1 to the left, for the wheels to turn that way."""
        return way if self.forward else -way

    def turned(self, way: int, travel: float) -> tuple[float, float]:
        """Degrees of the inner and of the outer wheel after that much rack. OverCentreError beyond over centre."""
        if travel >= self.toggle(way):
            raise OverCentreError
        moved = self.towards(way) * travel
        return way * self.angle(way, moved), way * self.angle(-way, moved)

    def travel_at_margin(self, way: int, degrees: float) -> float | None:
        """mm of rack after which that margin is left; None where it is less from the start, or never gets so small."""
        end = self.toggle(way)
        if not math.isfinite(end) or self.margin(0) < degrees:
            return None
        low, high = 0.0, end
        for _ in range(80):
            middle = (low + high) / 2
            try:
                enough = self.margin(self.towards(way) * middle) >= degrees
            except OverCentreError:
                enough = False
            low, high = (middle, high) if enough else (low, middle)
        return low


def _wrapped(angle: float) -> float:
    """An angle between minus and plus half a turn."""
    return math.remainder(angle, 2 * math.pi)


def ideal_outer(inner: float, kingpins: float, wheelbase: float) -> float:
    """Degrees of the outer wheel so that both roll about one centre: cot o − cot i = kingpins / wheelbase."""
    return math.degrees(math.atan(1 / (1 / math.tan(math.radians(inner)) + kingpins / wheelbase)))


def ackermann_by_angle(inner: float, outer: float, kingpins: float, wheelbase: float) -> float:
    """Per cent: what the outer wheel turns less, of what it would turn less by the ideal."""
    return 100 * (inner - outer) / (inner - ideal_outer(inner, kingpins, wheelbase))


def against_ackermann(inner: float, outer: float, kingpins: float, wheelbase: float) -> tuple[str, ...]:
    """What is said before all else where the outer wheel (degrees) turns more than the inner one."""
    if outer <= inner:
        return ()
    percent = ackermann_by_angle(inner, outer, kingpins, wheelbase)
    return (
        f"The outer wheel turns more than the inner one, {outer:.1f}° against {inner:.1f}°: Ackermann is"
        f" {percent:.0f} %. Rolling slowly the front tyres drag; it is right only where that is wanted.",
    )


def ackermann_by_cotangent(inner: float, outer: float, kingpins: float, wheelbase: float) -> float:
    """Per cent: the difference of the cotangents, of what it is by the ideal."""
    i, o = math.radians(inner), math.radians(outer)
    return 100 * (1 / math.tan(o) - 1 / math.tan(i)) / (kingpins / wheelbase)


def turning_radius(inner: float, kingpins: float, wheelbase: float) -> float:
    """mm from the centre of the turn to the middle of the rear axle, by the inner wheel."""
    return wheelbase / math.tan(math.radians(inner)) + kingpins / 2


def overall_ratio(gain: float, per_turn: float) -> float:
    """Degrees of the steering wheel a degree of the road wheel; `gain` rad/mm, `per_turn` mm of rack a turn."""
    return 360 / (per_turn * math.degrees(gain))


def rack_force(moment: float, gains: tuple[float, float]) -> float:
    """N along the rack that turns both wheels against `moment` (N·m about each king-pin)."""
    return 1000 * moment * sum(gains)


def rim_force(force: float, per_turn: float, radius: float) -> float:
    """N at the rim of the steering wheel (`radius` mm) for a force along the rack (N)."""
    return force * per_turn / (2 * math.pi) / radius
