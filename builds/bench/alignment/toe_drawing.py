"""Wheels from above, front at the top, their toe drawn twenty times as large as it is."""

import math

from builds.bench.frame.drawing import Drawing, Label, Line

HALF, AXLE, BASE, TIMES = 90.0, 320.0, 520.0, 20


def toe_drawing(title: str, axles: tuple[tuple[str, float, float], ...], thrust: float | None = None) -> Drawing:
    """Axles (name, toe of left and right in degrees, in above 0), and the thrust line in degrees to the right."""
    shapes: list[Line | Label] = []
    for number, (name, left, right) in enumerate(axles):
        y = number * BASE
        shapes.append(Line(((-AXLE, y), (AXLE, y)), "thin"))
        for side, toe in ((-1, left), (1, right)):
            turned = math.radians(max(-60.0, min(60.0, TIMES * toe)))
            # toed in, its front leans to the middle
            lean, up = -side * HALF * math.sin(turned), HALF * math.cos(turned)
            shapes.append(Line(((side * AXLE + lean, y - up), (side * AXLE - lean, y + up)), "strong"))
            shapes.append(Label((side * AXLE, y + HALF + 45), f"{toe:+.2f}°"))
        shapes.append(Label((0, y - 15), name))
    if thrust is not None:
        aside = math.tan(math.radians(max(-60.0, min(60.0, TIMES * thrust)))) * BASE
        shapes.append(Line(((0, BASE), (aside, 0)), "dash"))
    words = "; ".join(f"{name} left {left:+.2f}°, right {right:+.2f}°" for name, left, right in axles)
    more = f"; thrust {thrust:+.3f}° to the right" if thrust is not None else ""
    return Drawing(title, f"Toe-in above 0, drawn {TIMES} times as large: {words}{more}.", tuple(shapes))
