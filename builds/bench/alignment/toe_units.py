"""Toe in other words: degrees, minutes, millimetres and inches, one wheel and both."""

from builds.bench.alignment.toe import each_of_total, toe_angle, toe_difference, total_difference
from builds.bench.alignment.toe_drawing import toe_drawing
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked

ONE, BOTH = "one", "both"


def _degrees(given: Given, texts: Texts) -> float:
    """Of one wheel, from whichever of the two was written."""
    angle, difference, across = given.get("angle"), given.get("difference"), given["across"]
    if (angle is None) == (difference is None):
        raise SumError("Write toe as an angle or as a difference, one of the two.", "angle")
    whole = texts["of"] == BOTH
    if angle is not None:
        return angle / 2 if whole else angle
    try:
        return each_of_total(difference or 0, across) if whole else toe_angle(difference or 0, across)
    except ValueError as refusal:
        raise SumError(str(refusal), "difference") from None


def _work(given: Given, texts: Texts) -> Worked:
    each, across, resolves = _degrees(given, texts), given["across"], given["resolves"]
    give = toe_angle(min(resolves, across), across)
    answers = (
        Answer("each", "One wheel", each, "°", 2, give),
        Answer("total", "Both together", 2 * each, "°", 2, 2 * give),
        Answer("each_minutes", "One wheel, minutes", 60 * each, "", 0),
        Answer("total_minutes", "Both together, minutes", 120 * each, "", 0),
        Answer("each_mm", "One wheel, across", toe_difference(each, across), "mm", 1, resolves),
        Answer("total_mm", "Both together, across", total_difference(2 * each, across), "mm", 1, 2 * resolves),
        Answer("each_in", "One wheel, thousandths of an inch", toe_difference(each, across) / 0.0254, "", 0),
        Answer("resolution", "What the instrument resolves", give, "°", 3),
    )
    return Worked(answers, toe_drawing("Toe of both wheels alike", (("Axle", each, each),)))


SUM = Sum(
    slug="toe-units",
    title="Toe in other words",
    question="What is this toe in degrees, minutes, millimetres and inches?",
    asks=(
        Ask("angle", "Toe as an angle", "°", "0.2", least=-10, most=10, needed=False),
        Ask("difference", "Toe as a difference", "mm", least=-100, most=100, needed=False),
        Ask("of", "That is of", choices=((BOTH, "Both wheels together"), (ONE, "One wheel")), default=BOTH),
        Ask("across", "Measured across", "mm", "470", above=100, most=1_500, figure="toe_across"),
        Ask("resolves", "What the instrument resolves", "mm", "0.5", above=0, most=10, default="0.5"),
    ),
    work=_work,
    formula=("one wheel = asin(difference / across)", "both = 2 across sin(total / 2), for equal wheels"),
    source="The definition of toe, ISO 8855:2011 7.1.6 and 7.1.7",
    assumes="Toe-in is above 0. Across is where it was measured: plates, strings or the flange, not the rim's name.",
    limits="Half a millimetre at 470 mm is 0.06°: nothing finer is read with strings and a rule (common practice).",
    caution="Toe is set last, on the ground, at ride height. Tighten the jam nuts, stripe them, and read it again.",
    offered=Offered(readings=("toe_front", "toe_rear"), systems=("suspension",), checks=("each", "total")),
)
