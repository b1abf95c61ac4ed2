"""What the steering sums ask of a car, and its linkage made of that."""

from builds.bench.frame.sums import Ask, Given, Texts
from builds.bench.steering.linkage import Linkage

FORWARD, BACK = "forward", "back"
LAYOUT = "The car"
ASKS = (
    Ask("kingpins", "Between the king-pin axes", "mm", "1400", above=0, most=3_000, group=LAYOUT, figure="kingpins"),
    Ask("wheelbase", "Wheelbase", "mm", "2550", least=500, most=10_000, group=LAYOUT, figure="wheelbase"),
    Ask("arm", "Steering arm, king-pin axis to joint", "mm", "125", above=0, most=500, group=LAYOUT, figure="arm"),
    Ask(
        "arm_in",
        "Arm's tip points inboard by",
        "°",
        "8",
        least=-60,
        most=60,
        group=LAYOUT,
        figure="arm_in",
        note="Below 0 outboard.",
    ),
    Ask(
        "points",
        "The arms point",
        choices=((BACK, "Backwards"), (FORWARD, "Forwards")),
        default=BACK,
        group=LAYOUT,
        figure="arms_point",
    ),
    Ask("inner", "Between the inner joints", "mm", "640", above=0, most=2_000, group=LAYOUT, figure="inner"),
    Ask(
        "rack",
        "Rack from the king-pin axes, the way the arms point",
        "mm",
        "100",
        least=-500,
        most=500,
        group=LAYOUT,
        figure="rack",
    ),
)
TRAVEL = Ask("travel", "Rack travel each way", "mm", "65", above=0, most=300, group=LAYOUT, figure="rack_travel")
EFFORT = (
    Ask(
        "per_turn",
        "Rack travel a turn of the wheel",
        "mm",
        "50",
        above=0,
        most=300,
        group=LAYOUT,
        figure="rack_per_turn",
    ),
    Ask("moment", "Moment about each king-pin", "N·m", "150", least=0, most=2_000, default="150", group=LAYOUT),
    Ask("rim", "Steering wheel, radius", "mm", "175", above=0, most=400, default="175", group=LAYOUT, figure="rim"),
)


def linkage_of(given: Given, texts: Texts, **change: float) -> Linkage:
    """The car's linkage, with what is changed of it put in."""
    figures = {slug: given[slug] for slug in ("kingpins", "arm", "arm_in", "inner", "rack")}
    return Linkage(forward=texts["points"] == FORWARD, **(figures | change))
