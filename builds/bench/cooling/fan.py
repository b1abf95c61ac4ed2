"""Fans: one against another as a ratio, and what more speed costs."""

import math
from dataclasses import dataclass

from builds.bench.frame.drawing import Drawing, Label, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked


@dataclass(frozen=True, slots=True)
class Fan:
    """`across` and `hub` mm, `blade` degrees at three quarters of the radius, `speed` turns a minute."""

    across: float
    hub: float
    blade: float
    speed: float

    @property
    def area(self) -> float:
        """m² between hub and tips."""
        return math.pi / 4 * (self.across**2 - self.hub**2) / 1e6

    @property
    def pitch(self) -> float:
        """m that a blade would screw itself forward in a turn."""
        return 2 * math.pi * 0.75 * self.across / 2000 * math.tan(math.radians(self.blade))

    @property
    def flow(self) -> float:
        """m³/s if nothing slipped: a geometric figure, good as a ratio only."""
        return self.area * self.pitch * self.speed / 60

    @property
    def tip(self) -> float:
        """m/s of the blade's tip."""
        return math.pi * self.across / 1000 * self.speed / 60


def speed_laws(ratio: float) -> tuple[float, float, float]:
    """Flow, pressure and power when a fan turns `ratio` times as fast. Source: the fan laws, Q ~ N, Δp ~ N², P ~ N³."""
    return ratio, ratio**2, ratio**3


def _fan(given: Given, mark: str) -> Fan:
    fan = Fan(*(given[f"{mark}_{name}"] for name in ("across", "hub", "blade", "speed")))
    if fan.hub >= fan.across:
        raise SumError("The hub is smaller than the fan.", f"{mark}_hub")
    return fan


def _work(given: Given, texts: Texts) -> Worked:
    one, other, many = _fan(given, "a"), _fan(given, "b"), given["many"]
    ratio = one.flow / (many * other.flow)
    flow, pressure, power = speed_laws(1 + given["faster"] / 100)
    answers = (
        Answer("ratio", "Flow, first against all of the second", ratio, "", 2),
        Answer("flow_a", "First, if nothing slipped, m³/s", one.flow, "", 2),
        Answer("flow_b", "One of the second, if nothing slipped, m³/s", other.flow, "", 2),
        Answer("tip_a", "First, speed of the tip, m/s", one.tip, "", 1),
        Answer("tip_b", "Second, speed of the tip, m/s", other.tip, "", 1),
        Answer("faster_flow", "Turned faster: flow, times", flow, "", 2),
        Answer("faster_pressure", "Turned faster: pressure, times", pressure, "", 2),
        Answer("faster_power", "Turned faster: power, times", power, "", 2),
    )
    return Worked(answers, _drawing(one, other, round(many)))


def _drawing(one: Fan, other: Fan, many: int) -> Drawing:
    shapes: list[Ring | Label] = []
    x = 0.0
    for fan in (one, *[other] * many):
        x += fan.across / 2
        shapes += [Ring((x, 0), fan.across / 2, "strong" if fan is one else "part"), Ring((x, 0), fan.hub / 2, "thin")]
        x += fan.across / 2 + 30
    shapes.append(Label((one.across / 2, one.across / 2 + 60), "First"))
    words = f"The first is {one.across:.0f} mm across, each of the {many} others {other.across:.0f} mm."
    return Drawing("Fans to scale", words, tuple(shapes))


def _asks(mark: str, group: str, example: tuple[str, str, str, str]) -> tuple[Ask, ...]:
    across, hub, blade, speed = example
    return (
        Ask(f"{mark}_across", "Across the tips", "mm", across, above=0, most=2_000, group=group),
        Ask(f"{mark}_hub", "Across the hub", "mm", hub, least=0, most=2_000, group=group),
        Ask(f"{mark}_blade", "Blade at three quarters of the radius", "°", blade, above=0, most=80, group=group),
        Ask(f"{mark}_speed", "Turns a minute", "rpm", speed, above=0, most=20_000, group=group),
    )


SUM = Sum(
    slug="fan",
    title="Fan against fan",
    question="Does one fan move as much air as another, or two?",
    asks=(
        *_asks("a", "First", ("406", "150", "22", "2200")),
        *_asks("b", "Second", ("305", "120", "25", "2800")),
        Ask("many", "How many of the second", "", "2", whole=True, least=1, most=4, default="1", group="Second"),
        Ask("faster", "Turned faster by", "%", "15", least=-90, most=300, default="0", group="And if it is"),
    ),
    work=_work,
    formula=(
        "pitch = 2π × 0.75 radius × tan(blade); flow ∝ π/4 (across² − hub²) × pitch × speed",
        "flow ∝ speed, pressure ∝ speed², power ∝ speed³",
    ),
    source="Geometry, and the fan laws for similar fans",
    assumes="Similar blades, the same core and shroud behind both.",
    limits="A ratio only: what a fan really moves through a core is about half of it. Advertised flow is in free air.",
    caution="Fingers out: an electric fan starts by itself, engine off or not. Take its fuse out before you reach in.",
    offered=Offered(readings=("fan_switch",), systems=("cooling",), checks=("ratio",)),
)
