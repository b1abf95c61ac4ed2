"""Caster by swinging: two camber readings with the wheel turned in and out."""

import math

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked

LEAST_SWING = 5.0
"""°: in less, a tenth of camber comes to a degree of caster: 0.1 √2 / (2 sin 4°) = 1.0."""


def caster_exact(turned_in: float, turned_out: float, swing: float, inclination: float) -> float:
    """Degrees of caster from cambers (degrees, top in below 0) at plus and minus `swing`.

    `turned_in` with the wheel turned to the toe-in side, `inclination` of the steering axis seen from
    ahead. Exact for a wheel that turns about a fixed axis: own derivation; SAE 850219, January.
    """
    in_, out, turn, lean = (math.radians(angle) for angle in (-turned_in, -turned_out, swing, inclination))
    top = math.sin(in_) - math.sin(out) - math.tan(lean) * math.cos(turn) * (math.cos(in_) - math.cos(out))
    return math.degrees(math.atan2(top, math.sin(turn) * (math.cos(in_) + math.cos(out))))


def caster_shop(turned_in: float, turned_out: float, swing_in: float, swing_out: float) -> float:
    """Degrees by the shop form: difference of cambers by the sum of the sines of both swings."""
    return (turned_out - turned_in) / (math.sin(math.radians(swing_in)) + math.sin(math.radians(swing_out)))


def caster_arc(turned_in: float, turned_out: float, swing_in: float, swing_out: float) -> float:
    """Degrees by the arc form in common use: difference of cambers by both swings in radians, 2 % low at 20°."""
    return (turned_out - turned_in) / math.radians(swing_in + swing_out)


def _work(given: Given, texts: Texts) -> Worked:
    turned_in, turned_out, swing = given["turned_in"], given["turned_out"], given["swing"]
    other = given.get("swing_out", swing)
    exact = caster_exact(turned_in, turned_out, swing, given["inclination"]) if other == swing else None
    shop = caster_shop(turned_in, turned_out, swing, other)
    factor = 1 / (math.sin(math.radians(swing)) + math.sin(math.radians(other)))
    give = given["resolves"] * math.sqrt(2) * factor
    answers = (
        Answer(
            "exact",
            "Caster, top rearward above 0",
            exact,
            "°",
            1,
            give,
            words="" if exact is not None else "not worked out where the swings differ",
        ),
        Answer("shop", "By the shop form", shop, "°", 1, give),
        Answer(
            "arc", "By the arc form, which reads low", caster_arc(turned_in, turned_out, swing, other), "°", 1, give
        ),
        Answer("factor", "Shop factor", factor, "", 3),
    )
    return Worked(answers, _drawing(shop if exact is None else exact))


def _drawing(caster: float) -> Drawing:
    """The left wheel from its side, the car's front at the left, with its steering axis."""
    lean = math.radians(caster)
    top, bottom = (300 * math.sin(lean), -300 * math.cos(lean)), (-300 * math.sin(lean), 300 * math.cos(lean))
    shapes = (
        Line(((-320, 310), (320, 310)), "thin"),
        Line(((0, -310), (0, 310)), "dash"),
        Line((top, bottom), "strong"),
        Label((-300, 300), "front", "start"),
    )
    return Drawing("The steering axis from the side", f"Its top leans {caster:.1f}° to the rear.", shapes)


SUM = Sum(
    slug="caster-swing",
    title="Caster by swinging",
    question="What is caster, from camber with the wheel turned in and out?",
    asks=(
        Ask("turned_in", "Camber with the wheel turned in", "°", "-4.2", least=-30, most=30),
        Ask("turned_out", "Camber with the wheel turned out", "°", "0.1", least=-30, most=30),
        Ask("swing", "Swing each way", "°", "20", least=LEAST_SWING, most=45, default="20"),
        Ask("swing_out", "Swing out, where it differs", "°", least=LEAST_SWING, most=45, needed=False),
        Ask("inclination", "Inclination of the steering axis", "°", "12", least=-30, most=30, default="12"),
        Ask("resolves", "What the level resolves", "°", "0.1", above=0, most=2, default="0.1"),
    ),
    work=_work,
    formula=(
        "tan caster = [sin e₁ − sin e₂ − tan i cos s (cos e₁ − cos e₂)] / [sin s (cos e₁ + cos e₂)], e = −camber",
        "shop form = (camber out − camber in) / (2 sin swing)",
    ),
    source="SAE 850219, January; exact form derived here and checked by turning a wheel about its axis",
    assumes="Brakes locked, turn plates, the same swing both ways. Turned in is towards the car at the front.",
    limits="One and a half times the change of camber holds at 20° alone. An arc form in common use is 2 % low.",
    caution="Caster moves toe and bump steer: read those afterwards.",
    offered=Offered(readings=("caster",), systems=("suspension",), checks=("exact",)),
)
