"""Four springs under a rigid car: what a perch, a mass or a bar does to the loads and the heights.

x is behind the front axle, y to the right, mm; loads N; rates N/mm at the wheel. Own derivation: the
car sinks by q0 + q1 x + q2 y, each wheel's load changes by its rate times that and its perch, and
the changes balance. The tests prove that what it finds balances.
"""

from collections.abc import Sequence
from dataclasses import dataclass

GRAVITY = 9.80665
Vector = tuple[float, float, float, float]
_ONES = range(4)


@dataclass(frozen=True, slots=True)
class Stance:
    """Where the wheels stand and how stiff they are; `bars` roll stiffness of front and rear bar, N/mm at the wheel.

    A bar of rate b pushes each wheel of its axle by b/2 times the difference of their travels.
    """

    wheelbase: float
    track_front: float
    track_rear: float
    rates: Vector
    bars: tuple[float, float] = (0.0, 0.0)

    @property
    def places(self) -> tuple[tuple[float, float], ...]:
        """x and y of FL, FR, RL, RR."""
        half_front, half_rear = self.track_front / 2, self.track_rear / 2
        return (0.0, -half_front), (0.0, half_front), (self.wheelbase, -half_rear), (self.wheelbase, half_rear)

    @property
    def warp(self) -> Vector:
        """The change of loads that balances by itself: one diagonal up, the other down."""
        return 1 / self.track_front, -1 / self.track_front, -1 / self.track_rear, 1 / self.track_rear

    def stiffness(self) -> list[list[float]]:
        """Load of each wheel for a mm of travel of each, bars in."""
        rows = [[self.rates[line] if line == column else 0.0 for column in _ONES] for line in _ONES]
        for axle, bar in enumerate(self.bars):
            left, right = 2 * axle, 2 * axle + 1
            for one, other in ((left, right), (right, left)):
                rows[one][one] += bar / 2
                rows[one][other] -= bar / 2
        return rows


@dataclass(frozen=True, slots=True)
class SpringChange:
    """Loads gained (N) and how far each corner of the car sinks (mm), FL, FR, RL, RR."""

    loads: Vector
    sinks: Vector


def respond(
    stance: Stance, *, perches: Vector = (0, 0, 0, 0), mass: float = 0, x: float = 0, y: float = 0
) -> SpringChange:
    """What perches (mm at the wheel, more preload above 0) and a mass (kg at x, y) do together.

    ValueError where no rate holds the car up.
    """
    places, stiff = stance.places, stance.stiffness()
    shape = [(1.0, px, py) for px, py in places]
    force = mass * GRAVITY
    wanted = [force, force * x, force * y]
    preload = [stance.rates[wheel] * perches[wheel] for wheel in _ONES]
    stiff_shape = [[sum(stiff[line][k] * shape[k][column] for k in _ONES) for column in range(3)] for line in _ONES]
    left = [[sum(shape[k][line] * stiff_shape[k][column] for k in _ONES) for column in range(3)] for line in range(3)]
    right = [wanted[line] - sum(shape[k][line] * preload[k] for k in _ONES) for line in range(3)]
    q = solve(left, right)
    sinks = [sum(shape[wheel][column] * q[column] for column in range(3)) for wheel in _ONES]
    loads = [sum(stiff[wheel][k] * sinks[k] for k in _ONES) + preload[wheel] for wheel in _ONES]
    return SpringChange(four(loads), four(sinks))


def perches_for(stance: Stance, diagonal: float) -> Vector:
    """Perches (mm at the wheel) that move `diagonal` N from front left and rear right to the other two, heights kept.

    `diagonal` is what front right and rear left gain together. No wheel travels, so a bar that is
    hooked up bears nothing of it.
    """
    warp = stance.warp
    scale = -diagonal / (abs(warp[1]) + abs(warp[2]))
    return four([scale * warp[wheel] / stance.rates[wheel] for wheel in _ONES])


def solve(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """A small linear system by elimination with pivoting. ValueError where it has no single answer."""
    size = len(right)
    rows = [[*line, value] for line, value in zip(matrix, right, strict=True)]
    for column in range(size):
        pivot = max(range(column, size), key=lambda line: abs(rows[line][column]))
        if abs(rows[pivot][column]) < 1e-12:
            raise ValueError("These figures do not hold the car up.")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for line in range(column + 1, size):
            share = rows[line][column] / rows[column][column]
            rows[line] = [value - share * above for value, above in zip(rows[line], rows[column], strict=True)]
    answer = [0.0] * size
    for line in reversed(range(size)):
        known = sum(rows[line][column] * answer[column] for column in range(line + 1, size))
        answer[line] = (rows[line][size] - known) / rows[line][line]
    return answer


def four(values: Sequence[float]) -> Vector:
    """Figures of FL, FR, RL, RR. ValueError where they are not four."""
    fl, fr, rl, rr = values
    return fl, fr, rl, rr
