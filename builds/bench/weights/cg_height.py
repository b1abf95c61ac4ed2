"""Height of the centre of gravity, by lifting the rear axle."""

import math
from dataclasses import dataclass

from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked


@dataclass(frozen=True, slots=True)
class Lift:
    """kg and mm; `front` on the front axle level, `raised` with the rear hubs `height` higher; radii under load."""

    total: float
    front: float
    raised: float
    wheelbase: float
    height: float
    radius_front: float
    radius_rear: float

    @property
    def level(self) -> float:
        """Radians by which the line of the hubs rises to the rear on level ground."""
        return math.asin((self.radius_rear - self.radius_front) / self.wheelbase)

    @property
    def tilted(self) -> float:
        return math.asin((self.height + self.radius_rear - self.radius_front) / self.wheelbase)

    @property
    def per_kg(self) -> float:
        """mm of height for a kg on the front axle."""
        return self.wheelbase / (self.total * (math.tan(self.tilted) - math.tan(self.level)))


def cg_height(lift: Lift) -> float:
    """mm above the floor, exact for unequal tyres, wheelbase hub to hub.

    Source: moments about the front hub; a van maker's guide for body builders, and own derivation
    for unequal radii.
    """
    above = lift.per_kg * (lift.raised - lift.front)
    behind = lift.wheelbase * (1 - lift.front / lift.total) + above * math.tan(lift.level)
    return lift.radius_front + behind * math.sin(lift.level) + above * math.cos(lift.level)


def _work(given: Given, texts: Texts) -> Worked:
    lift = Lift(
        *(given[slug] for slug in ("total", "front", "raised", "wheelbase", "height", "radius_front", "radius_rear"))
    )
    if lift.front >= lift.total:
        raise SumError("The front axle cannot carry more than the car weighs.", "front")
    if lift.raised >= lift.total:
        raise SumError("With the rear lifted the front axle cannot carry more than the car weighs.", "raised")
    if abs(lift.radius_rear - lift.radius_front) >= lift.wheelbase:
        raise SumError("One hub cannot stand higher than the other by more than the wheelbase.", "radius_front")
    if lift.height + lift.radius_rear - lift.radius_front >= lift.wheelbase:
        raise SumError("It cannot be lifted by more than the wheelbase.", "height")
    if lift.raised <= lift.front:
        raise SumError("With the rear lifted the front axle carries more: look at both figures again.", "raised")
    height, per_kg = cg_height(lift), lift.per_kg
    if height > lift.wheelbase:
        raise SumError("It cannot lie higher than the wheelbase is long: lift it more, or weigh again.", "raised")
    give = per_kg * given["pad"] * math.sqrt(2)  # both axle readings carry one
    answers = (
        Answer("height", "Centre of gravity above the floor", height, "mm", 0, give),
        Answer("angle", "The car stands at", math.degrees(lift.tilted), "°", 2),
        Answer("per_kg", "A kg on the front axle is", per_kg, "mm", 1),
    )
    warnings = ("Lift it by a tenth of the wheelbase at least: this is mostly what the scales cannot resolve.",)
    return Worked(answers, _drawing(lift, height), warnings if lift.height < lift.wheelbase / 10 else ())


def _drawing(lift: Lift, height: float) -> Drawing:
    """The car from its left side, front at the left, rear lifted."""
    tilt = lift.tilted
    front = (0.0, -lift.radius_front)
    rear = (lift.wheelbase * math.cos(tilt), -lift.radius_front - lift.wheelbase * math.sin(tilt))
    behind, above = lift.wheelbase * (1 - lift.front / lift.total), height - lift.radius_front
    spot = (
        front[0] + behind * math.cos(tilt) - above * math.sin(tilt),
        front[1] - behind * math.sin(tilt) - above * math.cos(tilt),
    )
    shapes = (
        Line(((-lift.radius_front, 0), (lift.wheelbase * 1.1, 0)), "thin"),
        Ring(front, lift.radius_front),
        Ring(rear, lift.radius_rear),
        Line((front, rear)),
        Ring(spot, 30, "strong"),
        Label((spot[0], spot[1] - 60), f"{height:.0f} mm"),
    )
    return Drawing(
        "The rear lifted", f"Centre of gravity {height:.0f} mm above the floor when the car stands level.", shapes
    )


SUM = Sum(
    slug="cg-height",
    title="Height of the centre of gravity",
    question="How high is the centre of gravity?",
    asks=(
        Ask("total", "The car", "kg", "1200", above=0, most=20_000),
        Ask("front", "Front axle, level", "kg", "610.5", above=0, most=20_000),
        Ask("raised", "Front axle, rear lifted", "kg", "624.5", above=0, most=20_000),
        Ask("height", "Rear hubs lifted by", "mm", "400", above=0, most=5_000),
        Ask("wheelbase", "Wheelbase, hub to hub", "mm", "2575", least=500, most=10_000, figure="wheelbase"),
        Ask("radius_front", "Front hub above the floor", "mm", "300", above=0, most=1_000, figure="hub_front"),
        Ask("radius_rear", "Rear hub above the floor", "mm", "300", above=0, most=1_000, figure="hub_rear"),
        Ask("pad", "What the scales resolve, an axle", "kg", "0.5", above=0, most=50, default="0.5"),
    ),
    work=_work,
    formula=(
        "sin t0 = (rr − rf) / L; sin t1 = (H + rr − rf) / L; h1 = L (front raised − front) / [W (tan t1 − tan t0)]",
        "height = rf + a sin t0 + h1 cos t0, a = L (1 − front / W) + h1 tan t0",
    ),
    source="Moments about the front hub; a van maker's guide for body builders; ISO 10392 (from memory)",
    assumes="Suspension held by solid links in place of dampers, full tank or none, brakes off, wheels free to roll.",
    limits="Two figures are honest. What a kg on the front axle does to it is said: lift a tenth of the wheelbase.",
    caution="Chock the front wheels, secure the car against rolling off the pads, and keep people clear of it.",
    offered=Offered(readings=("cg_height",), checks=("height",)),
)
