"""Inrush: what a fan or a pump draws as it starts, and what that asks of fuse and relay."""

from builds.bench.frame.chart import chart
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.wiring.fuses import fuse_for


def _work(given: Given, texts: Texts) -> Worked:
    amps, many = given["amps"], given["many"]
    low, high = (times * amps for times in (given["low"], given["high"]))
    if low > high:
        raise SumError("At most cannot be less than at least.", "high")
    together = many * high
    fuse = fuse_for(amps * many)
    answers = (
        Answer("low", "One, as it starts, at least", low, "A", 0),
        Answer("high", "One, as it starts, at most", high, "A", 0),
        Answer("together", "All at once, at most", together, "A", 0),
        Answer("apart", "One after the other, at most", (many - 1) * amps + high, "A", 0),
        Answer("running", "All running", many * amps, "A", 1),
        Answer("fuse", "Slow fuse for all of them", fuse, "A", 1, words="" if fuse else "none on the list"),
    )
    curve = [(0.0, high), (0.1, high), (0.4, amps * 1.5), (1.0, amps), (2.0, amps)]
    drawing = chart(
        "One motor from standing still",
        f"From {high:.0f} A at the start to {amps:.0f} A once it turns; between them the shape is a sketch.",
        [("", curve)],
        across="seconds",
        up="A",
    )
    return Worked(answers, drawing)


SUM = Sum(
    slug="inrush",
    title="Inrush of pumps and fans",
    question="What does a motor draw as it starts?",
    asks=(
        Ask("amps", "One of them, running", "A", "20", above=0, most=200),
        Ask("many", "How many", "", "2", whole=True, least=1, most=10, default="1"),
        Ask("low", "Start, times running, at least", "", least=1, most=12, default="3"),
        Ask("high", "Start, times running, at most", "", least=1, most=12, default="5"),
    ),
    work=_work,
    formula=("start = running × 3 to 5", "one after the other = (n − 1) × running + start"),
    source="Common practice, no source: a stalled motor draws 3 to 5 times what it does running",
    assumes="Permanent-magnet motors on a stiff supply, from standing still.",
    limits="A measured start with a clamp meter is worth more than this. A jammed motor draws this for good.",
    caution="Use a slow fuse, and a relay for motors. Electric steering must fail safe: try it with a dead pump.",
    offered=Offered(systems=("electrics", "cooling"), checks=("fuse", "together")),
)
