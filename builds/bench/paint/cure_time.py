"""Cure time: how long a stage takes at another temperature."""

import math

from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked

FARTHEST = 40.0
"""K between the two temperatures: a rule of thumb for ten reaches no further. Common practice, no source."""


def cure_hours(hours: float, at: float, degrees: float, factor: float) -> float:
    """h at `degrees` (°C) of what takes `hours` at `at` (°C), `factor` times faster for each 10 °C more."""
    return hours * math.pow(factor, (at - degrees) / 10)


def _work(given: Given, texts: Texts) -> Worked:
    hours, at, degrees, factor = (given[slug] for slug in ("hours", "at", "degrees", "factor"))
    least = given.get("least")
    if least is not None and degrees < least:
        raise SumError("Below the product's least temperature it does not cure: warm the part.", "degrees")
    if abs(at - degrees) > FARTHEST:
        raise SumError(
            f"The data sheet's temperature is {abs(at - degrees):.0f} °C from the part's: the rule does not reach "
            f"beyond {FARTHEST:g}. Is it in °F? Write “68 °F”.",
            "at",
        )
    found = cure_hours(hours, at, degrees, factor)
    slow, fast = sorted((cure_hours(hours, at, degrees, 1.6), cure_hours(hours, at, degrees, 2.4)))
    answers = (
        Answer("hours", "It takes", found, "h", 1),
        Answer("from", "With a factor between 1.6 and 2.4, at least", slow, "h", 1),
        Answer("to", "With a factor between 1.6 and 2.4, at most", fast, "h", 1),
        Answer("times", "That is, times as long", found / hours, "", 2),
    )
    start = least if least is not None else min(degrees, at) - 10
    end = max(degrees, at) + 10
    curve = [(start + (end - start) * step / 40, 0.0) for step in range(41)]
    curve = [(point, cure_hours(hours, at, point, factor)) for point, _ in curve]
    words = f"From {curve[0][1]:.1f} h at {curve[0][0]:.0f} °C to {curve[-1][1]:.1f} h at {curve[-1][0]:.0f} °C."
    drawing = chart("Cure over temperature", words, [("", curve)], across="°C", up="h", mark=(degrees, found))
    warnings = ("Warmer than the data sheet's own figure: nothing is promised beyond it.",) if degrees > at else ()
    return Worked(answers, drawing, warnings)


SUM = Sum(
    slug="cure-time",
    title="Cure time",
    question="How long does this stage take at the shop's temperature?",
    asks=(
        Ask("hours", "The data sheet says", "h", "16", above=0, most=2_000),
        Ask("at", "At", "°C", "20", least=-20, most=80),
        Ask("degrees", "The part is at", "°C", "12", least=-20, most=80),
        Ask("factor", "Faster for each 10 °C, times", "", "2", above=1, most=5, default="2"),
        Ask("least", "Does not cure below", "°C", "10", least=-30, most=60, needed=False),
    ),
    work=_work,
    formula=("time = data sheet's time × factor^((its temperature − the part's) / 10)",),
    source="The rule of thumb of twice for 10 °C; published data sheets fit 1.6 to 3.3",
    assumes="The part's own temperature, not the air's; a film as thick as the data sheet has it.",
    limits="Twice fails in the cold: a published epoxy takes twice as long again at 0 °C. "
    "A data-sheet table is better; products with one are kept in the shop.",
    caution="Estimate only; the product data sheet wins. Isocyanate paints need air-fed protection.",
    offered=Offered(systems=("paint", "body", "glass"), checks=("hours",)),
)
