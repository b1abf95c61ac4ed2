"""Brakes: line pressure from the foot, torque at the wheels, bias, and what another bore does."""

import math
from dataclasses import dataclass, replace

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, MeasuredAnswer, Offered, Sum, Texts, Worked

ENDS = ("front", "rear")


@dataclass(frozen=True, slots=True)
class Axle:
    """Bores of `master` and `piston` mm, `pistons` on one side of a caliper, `radius` mm where the pad works."""

    master: float
    piston: float
    pistons: float
    radius: float
    friction: float


def area(bore: float) -> float:
    """mm² of a bore in mm."""
    return math.pi / 4 * bore**2


def line_pressure(force: float, bore: float) -> float:
    """MPa for a force (N) on a master cylinder of that bore (mm)."""
    return force / area(bore)


def axle_torque(axle: Axle, force: float) -> float:
    """N·m of both wheels of an axle for a force (N) on its master cylinder.

    Both sides of a disc are gripped: 2 μ p A r at each of two wheels. Source: Limpert, *Brake Design
    and Safety* (from memory).
    """
    clamp = line_pressure(force, axle.master) * area(axle.piston) * axle.pistons
    return 2 * 2 * axle.friction * clamp * axle.radius / 1000


def _axle(given: Given, end: str) -> Axle:
    return Axle(*(given[f"{end}_{name}"] for name in ("master", "piston", "pistons", "radius", "friction")))


def _work(given: Given, texts: Texts) -> Worked:
    at_pedal = given["foot"] * given["pedal"]
    share = given["bar"] / 100
    front, rear = _axle(given, "front"), _axle(given, "rear")
    torques = axle_torque(front, at_pedal * share), axle_torque(rear, at_pedal * (1 - share))
    bias = 100 * torques[0] / sum(torques)
    slows = sum(torques) / (given["tyre"] / 1000) / (given["mass"] * 9.80665)
    answers = (
        Answer("bias", "Bias to the front", bias, "%", 1),
        Answer("front_pressure", "Pressure, front", 10 * line_pressure(at_pedal * share, front.master), "bar", 1),
        Answer("rear_pressure", "Pressure, rear", 10 * line_pressure(at_pedal * (1 - share), rear.master), "bar", 1),
        Answer("front_torque", "Torque of both front wheels", torques[0], "N·m", 0),
        Answer("rear_torque", "Torque of both rear wheels", torques[1], "N·m", 0),
        Answer(
            "slows",
            "Slows the car by, of a g",
            slows,
            "",
            2,
        ),
        Answer("front_travel", "Pedal travel for 1 mm at each front pad", _travel(front, given["pedal"]), "mm", 1),
        Answer("rear_travel", "Pedal travel for 1 mm at each rear pad", _travel(rear, given["pedal"]), "mm", 1),
        *_with_new_bores(given, (front, rear), torques),
    )
    return Worked(answers, _bars(*torques))


def _with_new_bores(given: Given, axles: tuple[Axle, Axle], before: tuple[float, float]) -> tuple[Answer, ...]:
    """What other master cylinders would do, for the same foot; nothing where none is wanted."""
    if "new_front" not in given and "new_rear" not in given:
        return ()
    at_pedal, share = given["foot"] * given["pedal"], given["bar"] / 100
    front, rear = (
        replace(axle, master=given.get(f"new_{end}", axle.master)) for end, axle in zip(ENDS, axles, strict=True)
    )
    after = axle_torque(front, at_pedal * share), axle_torque(rear, at_pedal * (1 - share))
    pedal = given["pedal"]
    return (
        Answer("new_bias", "Bias to the front, with the new bores", 100 * after[0] / sum(after), "%", 1),
        Answer("new_torque", "Torque of all wheels, new over old", sum(after) / sum(before), "", 2),
        Answer("new_foot", "Force of the foot for the same torque", given["foot"] * sum(before) / sum(after), "N", 0),
        Answer("new_front_travel", "Pedal travel for 1 mm at each front pad, new", _travel(front, pedal), "mm", 1),
        Answer("new_rear_travel", "Pedal travel for 1 mm at each rear pad, new", _travel(rear, pedal), "mm", 1),
    )


def _travel(axle: Axle, pedal: float) -> float:
    """mm of pedal for a mm at every pad of an axle: the fluid that two calipers take, each with two pads.

    Opposed pistons go a mm on either side; the one side of a floating caliper goes two, for both pads.
    """
    return 2 * 2 * axle.pistons * area(axle.piston) / area(axle.master) * pedal


def _bars(front: float, rear: float) -> Drawing:
    longest = max(front, rear, 1e-9)
    shapes: list[Line | Label] = []
    for level, (name, size) in enumerate((("Front", front), ("Rear", rear))):
        end, top = 100 * size / longest, 22 * level
        shapes.append(
            Line(
                ((0, top), (end, top), (end, top + 10), (0, top + 10)), "strong" if level == 0 else "part", closed=True
            )
        )
        shapes.append(Label((0, top - 2), f"{name} {size:.0f} N·m", "start"))
    return Drawing("Torque of both axles", f"Front {front:.0f} N·m, rear {rear:.0f} N·m.", tuple(shapes))


def _asks(end: str, example: tuple[str, str, str, str]) -> tuple[Ask, ...]:
    master, piston, pistons, radius = example
    group = end.capitalize()
    return (
        Ask(
            f"{end}_master", "Master cylinder bore", "mm", master, above=0, most=60, group=group, figure=f"{end}_master"
        ),
        Ask(
            f"{end}_piston", "Caliper piston bore", "mm", piston, above=0, most=100, group=group, figure=f"{end}_piston"
        ),
        Ask(
            f"{end}_pistons",
            "Pistons on one side of a caliper",
            "",
            pistons,
            whole=True,
            least=1,
            most=6,
            group=group,
            figure=f"{end}_pistons",
        ),
        Ask(
            f"{end}_radius",
            "Radius where the pad works",
            "mm",
            radius,
            above=0,
            most=300,
            group=group,
            figure=f"{end}_radius",
        ),
        Ask(f"{end}_friction", "Friction of pad and disc", "", "0.4", above=0, most=1, default="0.4", group=group),
    )


SUM = Sum(
    slug="brake-bias",
    title="Brakes",
    question="What do pedal, cylinders and calipers make of the foot, and where is the bias?",
    asks=(
        Ask("foot", "Force of the foot", "N", "400", above=0, most=2_000),
        Ask("pedal", "Pedal ratio, to one", "", "5", above=0, most=12, figure="pedal_ratio"),
        Ask("bar", "Balance bar, to the front", "%", "50", above=0, most=99.9, default="50"),
        *_asks("front", ("19.05", "38", "2", "120")),
        *_asks("rear", ("20.64", "36", "1", "115")),
        Ask("tyre", "Radius of the tyre under load", "mm", "300", above=0, most=600, figure="tyre_radius"),
        Ask("mass", "The car", "kg", "1200", above=0, most=5_000),
        *(
            Ask(
                f"new_{end}",
                f"Another master cylinder, {end}, bore",
                "mm",
                above=0,
                most=60,
                needed=False,
                group="A bore changed",
            )
            for end in ENDS
        ),
    ),
    work=_work,
    formula=(
        "pressure = foot × pedal ratio × share / bore area",
        "torque = 4 μ × pressure × piston area × pistons × radius",
        "pedal travel for 1 mm at each pad = 4 × piston area × pistons ÷ bore area × pedal ratio",
    ),
    source="Limpert, Brake Design and Safety (from memory); hydraulics",
    assumes="Two master cylinders with a balance bar, discs all round, a floating caliper counted by its one side: "
    "its piston goes 2 mm for 1 mm at each pad.",
    limits="Friction changes by half with heat. Weight goes forward as it slows: set bias by trying, rear locks last.",
    caution="Try it at walking pace, then slowly, away from others. Bleed, leak check and bedding come first.",
    offered=Offered(
        readings=("brake_bias", "pedal_travel", "brake_bleed"),
        systems=("brakes",),
        checks=("bias", "new_bias"),
        # Per cent; common practice, no source.
        measured=(MeasuredAnswer("bias", "brake_bias", ("front",), 3.0),),
    ),
)
