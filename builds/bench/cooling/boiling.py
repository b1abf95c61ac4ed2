"""Boiling: when coolant boils under its cap, at the height of the place."""

import math

from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked

# Saturation of water, region 4. Source: IAPWS-IF97, table 34.
_N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)
ZERO = 273.15
# K above water for half glycol by volume. Source: trade tables, 106 to 108 °C in the open.
HALF_GLYCOL = 7.7


def boiling_water(pascals: float) -> float:
    """K at which water boils under an absolute pressure (Pa). Source: IAPWS-IF97, equation 31."""
    beta = math.sqrt(math.sqrt(pascals / 1e6))
    e = beta * beta + _N[2] * beta + _N[5]
    f = _N[0] * beta * beta + _N[3] * beta + _N[6]
    g = _N[1] * beta * beta + _N[4] * beta + _N[7]
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    return (_N[9] + d - math.sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2


def air_pressure(metres: float) -> float:
    """Pa at a height above the sea. Source: the ICAO standard atmosphere up to 11 km."""
    return 101_325 * math.pow(1 - 2.25577e-5 * metres, 5.25588)  # above the air a ValueError, no complex number


def boils_at(cap: float, metres: float, half_glycol: bool) -> float:
    """°C under a cap (bar above the air) at a height (m above the sea)."""
    water = boiling_water(air_pressure(metres) + cap * 1e5) - ZERO
    return water + HALF_GLYCOL if half_glycol else water


def _work(given: Given, texts: Texts) -> Worked:
    cap, metres, half = given["cap"], given["height"], texts["coolant"] == "half"
    closed, opened = boils_at(cap, metres, half), boils_at(0, metres, half)
    give = 2.0 if half else 0.5
    answers = (
        Answer("closed", "Boils under the cap at", closed, "°C", 1, give),
        Answer("opened", "Boils with the cap off at", opened, "°C", 1, give),
        Answer(
            "left",
            "Left to boiling, K",
            closed - given["hot"] if "hot" in given else None,
            "",
            0,
            words="" if "hot" in given else "not known: nobody said how hot it gets",
        ),
        Answer("air", "Air outside, absolute", air_pressure(metres) / 1e5, "bar", 3),
    )
    warnings = _warnings(given.get("hot"), opened, closed)
    curve = [(step / 10, boils_at(step / 10, metres, half)) for step in range(0, 31)]
    words = f"From {curve[0][1]:.0f} °C in the open to {curve[-1][1]:.0f} °C under 3 bar; the ring is this cap."
    drawing = chart("Boiling over the cap's pressure", words, [("", curve)], across="bar", up="°C", mark=(cap, closed))
    return Worked(answers, drawing, warnings)


def _warnings(hot: float | None, opened: float, closed: float) -> tuple[str, ...]:
    """What is said loudly of the hottest that was seen (°C), if somebody saw it."""
    if hot is None or hot < opened:
        return ()
    if hot >= closed:
        return (f"At {hot:.0f} °C it boils under this cap: stop, and let it cool with the cap on.",)
    return (f"At {hot:.0f} °C it boils as soon as the cap comes off.",)


SUM = Sum(
    slug="boiling",
    title="When it boils",
    question="At what temperature does the coolant boil under this cap, up there?",
    asks=(
        Ask("cap", "Cap", "bar", "1.1", least=0, most=3, figure="cap"),
        Ask("height", "Height above the sea", "m", "300", least=-400, most=5_000, default="0"),
        Ask("coolant", "Coolant", choices=(("half", "Half glycol"), ("water", "Water")), default="half"),
        Ask("hot", "Hottest seen", "°C", "104", least=0, most=200, needed=False),
    ),
    work=_work,
    formula=("water by saturation pressure; half glycol 7.7 K more", "pressure = air at that height + cap"),
    source="IAPWS-IF97 region 4; ICAO standard atmosphere; glycol from trade tables",
    assumes="A cap that holds what is stamped on it, and a system without air in it.",
    limits="The true average is 1.4 K a psi up to 15 psi, less than the saying of 3 °F. Half glycol within 2 K.",
    caution="Never open a hot system. A stronger cap loads hoses, heater and seals.",
    offered=Offered(readings=("coolant_bleed", "leak_check"), systems=("cooling",), checks=("closed",)),
)
