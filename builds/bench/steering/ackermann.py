"""Ackermann: what the outer wheel should turn, and what a measured pair comes to."""

from builds.bench.frame.drawing import Drawing, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked
from builds.bench.steering.linkage import (
    ackermann_by_angle,
    ackermann_by_cotangent,
    against_ackermann,
    ideal_outer,
    turning_radius,
)
from builds.bench.steering.steering_linkage import LEAST_FOR_ACKERMANN


def _work(given: Given, texts: Texts) -> Worked:
    inner, size = given["inner"], (given["kingpins"], given["wheelbase"])
    ideal, radius = ideal_outer(inner, *size), turning_radius(inner, *size)
    answers = [
        Answer("ideal", "Outer wheel, ideal", ideal, "°", 1),
        Answer("radius", "Middle of the rear axle turns on a radius of", radius / 1000, "m", 2),
    ]
    outer = given.get("outer")
    if outer is not None:
        answers += [
            Answer(
                "by_angle", "Ackermann of what was measured, by angles", ackermann_by_angle(inner, outer, *size), "%", 0
            ),
            Answer("by_cotangent", "The same, by cotangents", ackermann_by_cotangent(inner, outer, *size), "%", 0),
        ]
    return Worked(tuple(answers), _drawing(ideal, radius, *size), against_ackermann(inner, outer or 0, *size))


def _drawing(ideal: float, radius: float, kingpins: float, wheelbase: float) -> Drawing:
    """Both axles and the centre of the turn, its lines through the front king-pins."""
    centre = (-radius, wheelbase)
    left, right = (-kingpins / 2, 0.0), (kingpins / 2, 0.0)
    shapes = (
        Line((left, right), "strong"),
        Line(((-kingpins / 2, wheelbase), (kingpins / 2, wheelbase)), "strong"),
        Line((left, centre, right), "thin"),
        Line(((0, wheelbase), centre), "dash"),
    )
    words = f"The lines through both front wheels meet on that of the rear axle, {radius / 1000:.1f} m from its middle."
    return Drawing("The centre of the turn", words, shapes)


SUM = Sum(
    slug="ackermann",
    title="Ackermann",
    question="What should the outer wheel turn, and how near does this car come?",
    asks=(
        Ask("inner", "Inner wheel", "°", "38", least=LEAST_FOR_ACKERMANN, most=89),
        Ask("outer", "Outer wheel, as measured", "°", "33", above=0, most=89, needed=False),
        Ask("kingpins", "Between the king-pin axes", "mm", "1400", above=0, most=3_000, figure="kingpins"),
        Ask("wheelbase", "Wheelbase", "mm", "2550", least=500, most=10_000, figure="wheelbase"),
    ),
    work=_work,
    formula=("cot outer − cot inner = king-pins / wheelbase", "radius = wheelbase / tan inner + king-pins / 2"),
    source="ISO 8855:2011 7.1.9; Jazar, Vehicle Dynamics, chapter 7 (from memory)",
    assumes="Slow rolling, no slip; king-pin axes upright, their distance and not the track of the tyres.",
    limits="Two definitions of the share agree at 0 and 100 % and differ between; below 5° neither says anything.",
    caution="Less than 100 % is a choice on a competition car, not a fault; toe and lock clearance are checked apart.",
    offered=Offered(readings=("ackermann", "lock_angles"), systems=("steering",), checks=("ideal", "by_angle")),
)
