"""Springs: wheel rate, ride frequency, how far the wheel goes on a load."""

import math

from builds.bench.dimensions import AXLES
from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked

GRAVITY = 9.80665


def wheel_rate(spring: float, ratio: float) -> float:
    """N/mm at the wheel; `ratio` spring travel over wheel travel. Source: virtual work, k MR²."""
    return spring * ratio**2


def in_series(one: float, other: float) -> float:
    """Rate of two springs one on the other, such as a spring and its tyre."""
    return one * other / (one + other)


def frequency(rate: float, mass: float) -> float:
    """Hz of a mass (kg) on a rate (N/mm). Source: a mass on a spring, √(k/m) / 2π."""
    return math.sqrt(1000 * rate / mass) / (2 * math.pi)


def rate_for(hertz: float, mass: float) -> float:
    """N/mm that gives a mass (kg) that frequency."""
    return (2 * math.pi * hertz) ** 2 * mass / 1000


def _work(given: Given, texts: Texts) -> Worked:
    sprung = given["corner"] - given["unsprung"]
    if sprung <= 0:
        raise SumError("What is not sprung weighs less than the corner.", "unsprung")
    rate = wheel_rate(given["spring"], given["ratio"])
    sag = sprung * GRAVITY / rate
    answers = [
        Answer("rate", "Wheel rate", rate, "N/mm", 1),
        Answer("frequency", "Ride frequency, Hz", frequency(rate, sprung), "", 2),
        Answer("sag", "Wheel travel under its own load", sag, "mm", 0),
        Answer("spring_sag", "Spring travel under its own load", sag * given["ratio"], "mm", 0),
        Answer("tenth", "Wheel travel for a tenth of the load more", sag / 10, "mm", 1),
    ]
    if tyre := given.get("tyre"):
        both = in_series(rate, tyre)
        answers += [
            Answer("with_tyre", "Wheel rate with the tyre", both, "N/mm", 1),
            Answer("frequency_tyre", "Ride frequency with the tyre, Hz", frequency(both, sprung), "", 2),
        ]
    if wanted := given.get("wanted"):
        wheel = rate_for(wanted, sprung)
        answers.append(
            Answer("spring_wanted", "Spring for the frequency wanted", wheel / given["ratio"] ** 2, "N/mm", 1)
        )
    bump = given.get("bump")
    if bump:
        answers.append(Answer("g", "Load at the bump stop, times its own", 1 + bump / sag, "", 2))
    curve = [
        (step, frequency(wheel_rate(given["spring"] * step / 100, given["ratio"]), sprung))
        for step in range(50, 201, 5)
    ]
    words = f"From {curve[0][1]:.2f} Hz with half the spring rate to {curve[-1][1]:.2f} Hz with twice as much."
    drawing = chart(
        "Frequency over spring rate",
        words,
        [("", curve)],
        across="% of this spring",
        up="Hz",
        mark=(100, frequency(rate, sprung)),
    )
    return Worked(tuple(answers), drawing)


SUM = Sum(
    slug="spring-frequency",
    title="Spring, wheel rate, frequency",
    question="How stiff is the wheel, and how fast does the corner move?",
    asks=(
        Ask("axle", "Which axle", choices=AXLES, default="front"),
        Ask("spring", "Spring rate", "N/mm", "45", above=0, most=2_000, figure="spring_rate_{axle}"),
        Ask(
            "ratio", "Motion ratio, spring over wheel travel", "", "0.9", above=0, most=2, figure="motion_ratio_{axle}"
        ),
        Ask("corner", "Corner weight", "kg", "300", above=0, most=5_000),
        Ask("unsprung", "Of that not sprung", "kg", "35", least=0, most=1_000, default="35", figure="unsprung_{axle}"),
        Ask("tyre", "Tyre rate", "N/mm", "220", above=0, most=5_000, needed=False),
        Ask("wanted", "Frequency wanted, Hz", "", above=0, most=10, needed=False),
        Ask("bump", "Bump travel to the stop", "mm", "60", above=0, most=500, needed=False, figure="bump_{axle}"),
    ),
    work=_work,
    formula=("wheel rate = spring × ratio²; with the tyre k kt / (k + kt)", "frequency = √(rate / sprung mass) / 2π"),
    source="Gillespie, Fundamentals of Vehicle Dynamics, chapter 5 (from memory)",
    assumes="A straight spring and a constant ratio over the travel; dampers left out.",
    limits="Ratio measured over 25 mm each way is within some per cent. Bars add to it in roll, not in bump.",
    caution="A loaded spring can kill: use compressors that are rated for it, and never stand in its line.",
    offered=Offered(readings=("ride_height", "corner_weights"), systems=("suspension",), checks=("rate", "frequency")),
)
