"""Camber: from the edges of the rim or from a level, on a floor that slopes."""

import math

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked


def camber_from_edges(top_in: float, across: float) -> float:
    """Degrees, top in below 0: the rim's top edge lies `top_in` mm farther in than its bottom, `across` mm below."""
    return -math.degrees(math.asin(top_in / across))


def floor_slope(rise: float, apart: float) -> float:
    """Degrees, the right side higher above 0, of a floor that rises `rise` mm over `apart` mm."""
    return math.degrees(math.atan(rise / apart))


def _work(given: Given, texts: Texts) -> Worked:
    slope = given.get("slope", floor_slope(given["rise"], given["apart"]))
    readings = {}
    for side, name in (("left", "Left"), ("right", "Right")):
        level, top_in = given.get(side), given.get(f"{side}_top")
        if (level is None) == (top_in is None):
            raise SumError(f"{name}: write what the level says or how far in the top stands, one of the two.", side)
        if top_in is not None and abs(top_in) > given["across"]:
            raise SumError("The top cannot stand farther in than the rim is high.", f"{side}_top")
        readings[side] = level if level is not None else camber_from_edges(top_in or 0, given["across"])
    left, right = readings["left"] - slope, readings["right"] + slope
    give = given["resolves"]
    answers = (
        Answer("left", "Left, top in below 0", left, "°", 1, give),
        Answer("right", "Right, top in below 0", right, "°", 1, give),
        Answer("slope", "The floor slopes, right side higher", slope, "°", 2),
        Answer("apart", "Right less left", right - left, "°", 1, 2 * give),
    )
    return Worked(answers, _drawing(left, right, slope))


def _drawing(left: float, right: float, slope: float) -> Drawing:
    """Both wheels from behind, their lean five times as large as it is, on the floor."""
    shapes: list[Line | Label] = []
    rise = 400 * math.tan(math.radians(slope)) * 5
    shapes.append(Line(((-400, 120 + rise / 2), (400, 120 - rise / 2)), "thin"))
    for side, camber in ((-1, left), (1, right)):
        lean = math.radians(max(-60.0, min(60.0, 5 * camber)))
        x, y = side * 120 * math.sin(lean), 120 * math.cos(lean)
        shapes.append(Line(((side * 250 + x, -y), (side * 250 - x, y)), "strong"))
        shapes.append(Label((side * 250, 190), f"{camber:+.1f}°"))
    words = f"From behind, drawn five times as large: left {left:+.1f}°, right {right:+.1f}°, top in below 0."
    return Drawing("Camber", words, tuple(shapes))


SUM = Sum(
    slug="camber",
    title="Camber",
    question="What is camber, on a floor that is not level?",
    asks=(
        Ask("left", "Left, by the level", "°", "-2.35", least=-30, most=30, needed=False, group="By a level"),
        Ask("right", "Right, by the level", "°", "-1.75", least=-30, most=30, needed=False, group="By a level"),
        Ask(
            "left_top", "Left, top farther in by", "mm", least=-400, most=400, needed=False, group="By the rim's edges"
        ),
        Ask(
            "right_top",
            "Right, top farther in by",
            "mm",
            least=-400,
            most=400,
            needed=False,
            group="By the rim's edges",
        ),
        Ask(
            "across",
            "Rim, top edge to bottom edge",
            "mm",
            "450",
            above=50,
            most=1_500,
            default="450",
            group="By the rim's edges",
        ),
        Ask("rise", "Right side higher by", "mm", "8", least=-300, most=300, default="0", group="The floor"),
        Ask("apart", "Over a width of", "mm", "1500", above=0, most=5_000, default="1500", group="The floor"),
        Ask(
            "slope",
            "Or it slopes by",
            "°",
            least=-10,
            most=10,
            needed=False,
            note="Right side higher.",
            group="The floor",
        ),
        Ask("resolves", "What the level resolves", "°", "0.1", above=0, most=2, default="0.1", group="The floor"),
    ),
    work=_work,
    formula=("camber = −asin(top in / across)", "left = reading − slope, right = reading + slope"),
    source="Geometry; ISO 8855 has camber below 0 with the top in",
    assumes="The car settled, wheels straight ahead, pressures set, the driver's weight in.",
    limits="A digital level repeats to 0.1°. A floor 2 mm out over 1500 mm is 0.08°, the other way on each side.",
    caution="Camber moves toe: toe is read and set afterwards.",
    offered=Offered(readings=("camber",), systems=("suspension",), checks=("left", "right")),
)
