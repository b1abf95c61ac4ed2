"""Cooling: heat that the coolant takes, and the air and the coolant that carry it away."""

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked

AIR_HEAT = 1006.0  # J/(kg·K), dry air
GAS = 287.05  # J/(kg·K), dry air
ZERO = 273.15
SEA_LEVEL = 101_325.0  # Pa
# J/(kg·K) and kg/m³ near 90 °C. Source: 0.82 of water's heat for half glycol, a maker's workshop manual; water's
# density from steam tables.
COOLANTS = {"half": (3560.0, 1030.0), "water": (4205.0, 965.0)}


def air_density(degrees: float, pressure: float = SEA_LEVEL) -> float:
    """kg/m³ of dry air at a temperature (°C) and a pressure (Pa). Source: the ideal gas."""
    return pressure / (GAS * (degrees + ZERO))


def air_flow(heat: float, degrees: float, rise: float, pressure: float = SEA_LEVEL) -> float:
    """m³/s of air, as it comes in, that takes `heat` (W) and warms by `rise` (K)."""
    return heat / (air_density(degrees, pressure) * AIR_HEAT * rise)


def coolant_flow(heat: float, coolant: str, drop: float) -> float:
    """m³/s of a coolant of `COOLANTS` that gives off `heat` (W) and cools by `drop` (K)."""
    capacity, density = COOLANTS[coolant]
    return heat / (capacity * density * drop)


def _work(given: Given, texts: Texts) -> Worked:
    heat = given["share"] * given["power"]  # kW
    air = air_flow(1000 * heat, given["degrees"], given["rise"])
    coolant = coolant_flow(1000 * heat, texts["coolant"], given["drop"])
    answers = (
        Answer("heat", "Heat into the coolant", heat, "kW", 0, 0.3 * heat),
        Answer("air", "Air through the core", 3600 * air, "m³/h", 0, 0.3 * 3600 * air),
        Answer("density", "Density of that air, kg/m³", air_density(given["degrees"]), "", 3),
        Answer("coolant", "Coolant", 60_000 * coolant, "L/min", 0, 0.3 * 60_000 * coolant),
    )
    return Worked(answers, _bars(given["power"], heat))


def _bars(power: float, heat: float) -> Drawing:
    """Power at the wheels' side and heat into the coolant, in one scale."""
    longest = max(power, heat)
    shapes: list[Line | Label] = []
    for level, (name, size) in enumerate((("Power", power), ("Heat into the coolant", heat))):
        end, top = 100 * size / longest, 22 * level
        shapes.append(Line(((0, top), (end, top), (end, top + 10), (0, top + 10)), "part", closed=True))
        shapes.append(Label((0, top - 2), f"{name}, {size:.0f} kW", "start"))
    return Drawing("Power and heat", f"{power:.0f} kW of power, {heat:.0f} kW of heat into the coolant.", tuple(shapes))


SUM = Sum(
    slug="engine-heat",
    title="Heat, air and coolant",
    question="How much heat goes into the coolant, and how much air and coolant carry it away?",
    asks=(
        Ask("power", "Engine's power", "kW", "125", above=0, most=2_000),
        Ask("share", "Heat into the coolant, times power", "", "0.8", least=0.3, most=1.5, default="0.8"),
        Ask("degrees", "Air outside", "°C", "25", least=-40, most=60, default="25"),
        Ask("rise", "Air warms in the core by, K", "", "35", above=0, most=150, default="35"),
        Ask("coolant", "Coolant", choices=(("half", "Half glycol"), ("water", "Water")), default="half"),
        Ask("drop", "Coolant cools in the core by, K", "", "7", above=0, most=60, default="7"),
    ),
    work=_work,
    formula=(
        "heat = share × power; share 0.6 to 1.0, more for old, rich or rotary engines",
        "air = heat / (density × 1006 × rise); density = pressure / (287.05 × absolute temperature)",
        "coolant = heat / (heat capacity × density × drop)",
    ),
    source="Heat balance; shares of fuel by Heywood, Internal Combustion Engine Fundamentals (from memory)",
    assumes="Full power for minutes, dry air at sea level, all air through the core.",
    limits="Estimates, 30 % either way. Drifting is the worst of it: full heat at low speed. Many circuits ban glycol.",
    caution="Never open a hot system. A sealed shroud is worth more than a larger fan.",
    offered=Offered(readings=("coolant_bleed", "fan_switch"), systems=("cooling",), checks=("heat", "coolant")),
)
