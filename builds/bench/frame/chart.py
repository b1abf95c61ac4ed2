"""A curve over what it depends on, as a drawing 160 wide and 100 high with its scales written at the ends."""

from collections.abc import Sequence

from builds.bench.frame.drawing import Drawing, Label, Line, Point, Ring

WIDE, HIGH = 160.0, 100.0
LOOKS = ("strong", "part", "dash")


def chart(
    title: str,
    words: str,
    curves: Sequence[tuple[str, Sequence[Point]]],
    *,
    across: str,
    up: str,
    mark: Point | None = None,
) -> Drawing:
    """Curves (name, points) on common scales; `mark` is a point to ring. ValueError without two points."""
    points = [point for _, curve in curves for point in curve] + ([mark] if mark else [])
    xs, ys = [x for x, _ in points], [y for _, y in points]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    if right <= left:
        raise ValueError("A chart wants two points apart.")
    if high - low < 1e-9:
        low, high = low - 1, high + 1

    def at(point: Point) -> Point:
        return (point[0] - left) / (right - left) * WIDE, (high - point[1]) / (high - low) * HIGH

    shapes: list[Line | Ring | Label] = [Line(((0, 0), (0, HIGH), (WIDE, HIGH)), "thin")]
    if low < 0 < high:
        shapes.append(Line((at((left, 0)), at((right, 0))), "dash"))
    for number, (name, curve) in enumerate(curves):
        shapes.append(Line(tuple(at(point) for point in curve), LOOKS[number % len(LOOKS)]))
        if name:
            x, y = at(curve[-1])
            shapes.append(Label((x, y - 2), name, "end"))
    if mark:
        shapes.append(Ring(at(mark), 2.5, "strong"))
    shapes += [
        Label((0, HIGH + 8), f"{left:g}", "start"),
        Label((WIDE, HIGH + 8), f"{right:g}", "end"),
        Label((WIDE / 2, HIGH + 8), across),
        Label((-2, HIGH), f"{low:.3g}", "end"),
        Label((-2, 4), f"{high:.3g}", "end"),
        Label((2, -4), up, "start"),
    ]
    return Drawing(title, words, tuple(shapes))
