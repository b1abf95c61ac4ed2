"""Dew point: whether metal is warm enough to paint."""

from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked
from builds.cure.engine.dew_point import dew_point

# K above the dew point, and per cent of humidity. Source: ISO 8502-4 and ISO 12944-7, as cited by data sheets.
MARGIN, MOST_HUMID = 3.0, 85.0


def _work(given: Given, texts: Texts) -> Worked:
    air, humid = given["air"], given["humid"]
    dew = dew_point(air, humid)
    metal = given.get("metal")
    answers = [
        Answer("dew", "Dew point", dew, "°C", 1),
        Answer("least", "Metal must be at least", dew + MARGIN, "°C", 1),
        Answer(
            "margin",
            "The metal is above it by, K",
            None if metal is None else metal - dew,
            "",
            2,
            words="" if metal is not None else "not known: nobody measured the metal",
        ),
    ]
    warnings = []
    if metal is not None and metal - dew < MARGIN:
        warnings.append(f"The metal is {_above(metal - dew)} the dew point: less than {MARGIN:g}. Do not paint.")
    if humid >= MOST_HUMID:
        warnings.append(f"The air is at {humid:.0f} %: paint below {MOST_HUMID:g} %.")
    curve = [(float(step), dew_point(air, step)) for step in range(20, 101, 2)]
    words = f"Dew point {curve[0][1]:.1f} °C at 20 % to {curve[-1][1]:.1f} °C at 100 % of humidity."
    drawing = chart("Dew point over humidity", words, [("", curve)], across="% humidity", up="°C", mark=(humid, dew))
    return Worked(tuple(answers), drawing, tuple(warnings))


def _above(margin: float) -> str:
    """To a hundredth, and never rounded up to the least that is asked."""
    return f"{margin:.2f} K above" if round(margin, 2) < MARGIN else f"just under {MARGIN:g} K above"


SUM = Sum(
    slug="dew-point",
    title="Dew point",
    question="Is the metal warm enough to paint?",
    asks=(
        Ask("air", "Air", "°C", "16", least=-20, most=60),
        Ask("humid", "Relative humidity", "%", "71", least=1, most=100),
        Ask("metal", "Metal, measured", "°C", "13", least=-30, most=80, needed=False),
    ),
    work=_work,
    formula=(
        "γ = ln(RH / 100) + 17.62 T / (243.12 + T); dew point = 243.12 γ / (17.62 − γ)",
        "metal ≥ dew point + 3 °C",
    ),
    source="Magnus with the constants of WMO; margin ISO 8502-4 and ISO 12944-7, as cited by data sheets",
    assumes="Air and humidity measured beside the part.",
    limits="Good to 0.04 °C above freezing. Cold steel in warming air sweats for hours: measure the steel.",
    caution="Estimate only; the product data sheet wins.",
    offered=Offered(systems=("paint", "body"), checks=("dew", "least")),
)
