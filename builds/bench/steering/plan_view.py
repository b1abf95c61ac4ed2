"""The steering from above, its front at the top, at one place of the rack."""

import math

from builds.bench.frame.chart import chart
from builds.bench.frame.drawing import Drawing, Label, Line, Point, Ring
from builds.bench.steering.linkage import LEFT, RIGHT, Linkage, OverCentreError

TYRE = 300.0  # mm, half of what is drawn of a wheel


def plan_view(linkage: Linkage, moved: float, title: str) -> Drawing:
    """Arms, tie rods, rack and wheels to scale with the rack moved that far to the left."""
    shapes: list[Line | Ring | Label] = [
        Line((_seen(linkage.joint(LEFT, moved)), _seen(linkage.joint(RIGHT, moved))), "strong")
    ]
    for side in (LEFT, RIGHT):
        pivot, tip = linkage.pivot(side), linkage.tip(side, linkage.direction(side, moved))
        turned = math.radians(linkage.angle(side, moved))
        ahead = TYRE * math.cos(turned), TYRE * math.sin(turned)
        wheel = ((pivot[0] + ahead[0], pivot[1] + ahead[1]), (pivot[0] - ahead[0], pivot[1] - ahead[1]))
        shapes += [
            Line((_seen(pivot), _seen(tip), _seen(linkage.joint(side, moved)))),
            Line((_seen(wheel[0]), _seen(wheel[1])), "strong"),
            Ring(_seen(pivot), 14),
            Ring(_seen(tip), 8),
        ]
    left, right = linkage.angle(LEFT, moved), linkage.angle(RIGHT, moved)
    words = f"Left wheel {left:+.1f}°, right wheel {right:+.1f}°, turned to the left above 0; front at the top."
    return Drawing(title, words, tuple(shapes))


def over_travel(linkage: Linkage, travel: float) -> Drawing:
    """Inner and outer wheel over the travel of the rack."""
    steps = [travel * step / 40 for step in range(41)]
    turned = []
    for step in steps:
        try:
            turned.append((step, *linkage.turned(LEFT, step)))
        except OverCentreError:
            break
    inner = [(step, one) for step, one, _ in turned]
    outer = [(step, other) for step, _, other in turned]
    words = f"From straight ahead to {inner[-1][1]:.1f}° of the inner wheel and {outer[-1][1]:.1f}° of the outer one."
    return Drawing(
        "Lock over rack travel",
        words,
        chart("", words, [("inner", inner), ("outer", outer)], across="mm of rack", up="°").shapes,
    )


def _seen(point: Point) -> Point:
    """Forward is up, the left of the car at the left."""
    return -point[1], -point[0]
