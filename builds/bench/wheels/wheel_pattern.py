"""Wheel pattern: the circle of the studs, from what callipers measure."""

import math

from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from parts.engine.fit.pattern import back_to_centre, chord, pcd_from_chord

NEXT, SKIP = "next", "skip"
BETWEEN = ((NEXT, "Neighbours"), (SKIP, "Skipping one; of four, straight across"))
# Common circles, mm. Common practice, no source: a stud circle may be another.
COMMON = (98, 100, 108, 110, 112, 114.3, 115, 118, 120, 120.65, 127, 130, 135, 139.7, 150, 165.1)


def _work(given: Given, texts: Texts) -> Worked:
    studs = round(given["studs"])
    step = 2 if texts["which"] == SKIP else 1
    if step == 2 and studs < 4:
        raise SumError("Skipping one wants four studs or more.", "which")
    between = _between(given)
    circle = pcd_from_chord(between, studs, step)
    give = given["resolves"] / math.sin(math.pi * step / studs)
    near = sorted(COMMON, key=lambda size: abs(size - circle))[:2]
    likely = ", or ".join(f"{studs}×{size:g}" for size in near if abs(size - circle) <= give)
    answers = (
        Answer("pcd", "Circle of the studs", circle, "mm", 2, give),
        Answer("between", "Centre to centre, as measured", between, "mm", 2, given["resolves"]),
        Answer("adjacent", "Neighbours, centre to centre", chord(circle, studs), "mm", 2),
        Answer(
            "skip",
            "Skipping one, centre to centre",
            chord(circle, studs, 2) if studs > 3 else None,
            "mm",
            2,
            words="" if studs > 3 else "none",
        ),
        Answer("likely", "That is", None, words=likely or "no common circle: measure again"),
        Answer(
            "overreads",
            "Back of one hole to centre of the second would read",
            back_to_centre(circle, studs, given["hole"]) if studs > 4 else None,
            "mm",
            2,
            words="" if studs > 4 else "none",
        ),
    )
    warnings = ("A tape cannot tell these circles apart: measure with callipers.",) if "or" in likely else ()
    return Worked(answers, _drawing(circle, studs, step, given["hole"]), warnings)


def _between(given: Given) -> float:
    """Centre to centre, from whichever of the two was measured."""
    centre, gap = given.get("centre"), given.get("gap")
    if (centre is None) == (gap is None):
        raise SumError("Write centre to centre, or the clear gap between two studs, one of the two.", "centre")
    return centre if centre is not None else (gap or 0) + given["hole"]


def _drawing(circle: float, studs: int, step: int, hole: float) -> Drawing:
    at = [
        (circle / 2 * math.sin(2 * math.pi * place / studs), -circle / 2 * math.cos(2 * math.pi * place / studs))
        for place in range(studs)
    ]
    shapes: tuple[Line | Ring | Label, ...] = (
        Ring((0, 0), circle / 2, "thin"),
        *(Ring(place, hole / 2) for place in at),
        Line((at[0], at[step]), "strong"),
        Label((0, 0), f"{studs}×{circle:.1f}"),
    )
    return Drawing(
        "The pattern to scale", f"{studs} studs on a circle of {circle:.1f} mm; the bold line was measured.", shapes
    )


SUM = Sum(
    slug="wheel-pattern",
    title="Wheel pattern",
    question="On what circle do these studs stand?",
    asks=(
        Ask("studs", "Studs", "", "5", whole=True, least=3, most=12),
        Ask(
            "which",
            "Measured between",
            choices=BETWEEN,
            default=NEXT,
        ),
        Ask("centre", "Centre to centre", "mm", "67.2", above=0, most=300, needed=False),
        Ask("gap", "Clear gap between two studs", "mm", above=0, most=300, needed=False),
        Ask("hole", "Stud, or stud hole, across", "mm", "12", above=0, most=40, default="12"),
        Ask("resolves", "What the callipers resolve", "mm", "0.1", above=0, most=5, default="0.1"),
    ),
    work=_work,
    formula=("circle = centre to centre / sin(π / n); skipping one / sin(2π / n)", "centre to centre = gap + one stud"),
    source="Geometry of a regular polygon; the factors are those of published stud charts",
    assumes="Studs upright and on one circle; measured at the hub face.",
    limits="Circles of 5×112 and 5×114.3 differ by 1.4 mm between neighbours, 5×120 and 5×120.65 by 0.4 mm.",
    caution="A wheel that is a little out still bolts on, and fails later. Seat, bore and thread are part of the fit.",
    offered=Offered(systems=("wheels",), readings=("track_width",), checks=("pcd", "likely")),
)
