"""The car from above, its front at the top, with its loads to scale."""

from collections.abc import Mapping

from builds.bench.frame.drawing import Label, Line, Ring
from builds.bench.frame.sums import Ask

WHEELS = ("fl", "fr", "rl", "rr")
# slug, label, what the demo's scales might say (kg)
LEFT_RIGHT = (
    ("fl", "Front left", "312.5"),
    ("fr", "Front right", "298"),
    ("rl", "Rear left", "287"),
    ("rr", "Rear right", "302.5"),
)

WHEELBASE = Ask("wheelbase", "Wheelbase", "mm", "2575", least=500, most=10_000, figure="wheelbase")
TRACKS = tuple(
    Ask(
        f"track_{end}",
        f"{end.capitalize()} track",
        "mm",
        example,
        least=300,
        most=5_000,
        figure=f"track_{end}",
        reading=f"track_width.{end}",
    )
    for end, example in (("front", "1475"), ("rear", "1480"))
)


def places(wheelbase: float, track_front: float, track_rear: float) -> dict[str, tuple[float, float]]:
    """Where each wheel stands, mm: right of the middle, behind the front axle."""
    return {
        "fl": (-track_front / 2, 0.0),
        "fr": (track_front / 2, 0.0),
        "rl": (-track_rear / 2, wheelbase),
        "rr": (track_rear / 2, wheelbase),
    }


def plan_view(
    wheelbase: float, track_front: float, track_rear: float, loads: Mapping[str, float]
) -> tuple[Line | Ring | Label, ...]:
    """Axles, middle line and, at each wheel, a ring whose area is its load (kg), with the figure."""
    at = places(wheelbase, track_front, track_rear)
    heaviest = max(*loads.values(), 1e-9)
    shapes: list[Line | Ring | Label] = [
        Line((at["fl"], at["fr"]), "thin"),
        Line((at["rl"], at["rr"]), "thin"),
        Line(((0, -wheelbase / 8), (0, wheelbase * 9 / 8)), "dash"),
    ]
    for slug, (x, y) in at.items():
        shapes.append(Ring((x, y), wheelbase / 10 * (max(loads[slug], 0) / heaviest) ** 0.5, "part"))
        shapes.append(Label((x, y + wheelbase / 5.5), f"{loads[slug]:.1f} kg"))
    return tuple(shapes)
