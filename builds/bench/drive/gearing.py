"""Gearing: speed by engine speed in every gear, and the drop at each change."""

import math
import re
from itertools import pairwise

from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Column, Given, Offered, Sum, SumError, Table, Texts, Worked
from garage.engine.said import number
from garage.engine.units import QuantityError

MOST_GEARS = 8


def speed(turns: float, ratio: float, final: float, circumference: float) -> float:
    """km/h at that many engine turns a minute; `circumference` mm of the tyre under load."""
    return turns / (ratio * final) * circumference / 1e6 * 60


def gears_of(text: str) -> list[float]:
    """Ratios, first gear first, from `3.6 2.1 1.4` or one a line."""
    try:
        ratios = [float(number(word)) for word in re.split(r"[\s;]+", text.strip()) if word]
    except QuantityError as refusal:
        raise SumError(str(refusal), "gears") from None
    if not 1 <= len(ratios) <= MOST_GEARS or any(not 0.1 < ratio < 20 for ratio in ratios):
        raise SumError(f"Write one to {MOST_GEARS} ratios such as 3.6 2.1 1.4 1.1 0.9, between 0.1 and 20.", "gears")
    if any(one <= other for one, other in pairwise(ratios)):
        raise SumError("Write first gear first: each ratio is smaller than the one before.", "gears")
    return ratios


def _work(given: Given, texts: Texts) -> Worked:
    gears, most = gears_of(texts["gears"]), given["most"]
    around = 2 * math.pi * given["tyre"]
    tops = [speed(most, ratio, given["final"], around) for ratio in gears]
    drops = [most * other / one for one, other in pairwise(gears)]
    rows = tuple(
        (f"{gear}.", ratio, tops[gear - 1], 1000 * tops[gear - 1] / most, drops[gear - 1] if gear <= len(drops) else "")
        for gear, ratio in enumerate(gears, 1)
    )
    columns = (
        Column("Gear"),
        Column("Ratio", "", 3),
        Column("Top", "km/h", 1),
        Column("At 1000", "km/h", 1),
        Column("Falls to", "rpm", 0),
    )
    answers = (
        Answer("top", "Top speed in the last gear", tops[-1], "km/h", 0),
        Answer("first", "Top speed in first", tops[0], "km/h", 0),
        Answer("around", "Tyre rolls, a turn", around, "mm", 0),
        Answer("per_km", "Tyre turns a kilometre", 1e6 / around, "", 0),
    )
    curves = [(f"{gear}", [(0.0, 0.0), (top, most)]) for gear, top in enumerate(tops, 1)]
    words = "; ".join(f"gear {gear} to {top:.0f} km/h" for gear, top in enumerate(tops, 1)).capitalize()
    drawing = chart("Engine speed over road speed", f"{words}.", curves, across="km/h", up="turns a minute")
    return Worked(answers, drawing, table=Table("Every gear", columns, rows))


SUM = Sum(
    slug="gearing",
    title="Gearing",
    question="How fast is it in each gear, and where does the engine fall to?",
    asks=(
        Ask("gears", "Gear ratios, first gear first", words=True, example="3.36 2.09 1.47 1.15 0.98", figure="gears"),
        Ask("final", "Final drive", "", "4.1", above=0, most=20, figure="final_drive"),
        Ask("most", "Engine speed at the change", "rpm", "7000", above=0, most=20_000),
        Ask("tyre", "Radius of the tyre under load", "mm", "300", above=0, most=600, figure="tyre_radius"),
    ),
    work=_work,
    formula=(
        "speed = engine speed / (gear × final) × 2π × radius",
        "falls to = engine speed × next ratio / this ratio",
    ),
    source="Kinematics; Milliken & Milliken, Race Car Vehicle Dynamics (from memory)",
    assumes="No slip; radius from hub to floor, the car standing as raced.",
    limits="Tyres grow with speed and slip on loose ground: within some per cent.",
    caution="Engine speed at the change is the maker's or the builder's figure, not the limiter's.",
    offered=Offered(systems=("gearbox", "driveline"), checks=("top",)),
)
