"""Thread fit: whether a bolt and a nut go together, and what happens if they do not."""

from builds.bench.fasteners.bolt_torque import thread_of
from builds.bench.frame.drawing import Drawing, Label, Line, Point
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked
from parts.engine.fit.thread import EXTERNAL, INTERNAL, Thread
from parts.engine.fit.together import miss, together

TURNS = 8


def _work(given: Given, texts: Texts) -> Worked:
    bolt, nut = thread_of(texts["bolt"], "bolt").on(EXTERNAL), thread_of(texts["nut"], "nut").on(INTERNAL)
    verdict = together(bolt, nut)
    answers = [Answer("verdict", "Bolt and nut", None, words=f"{verdict.label}. {verdict.because}")]
    if bolt.form != nut.form:
        missed = miss(bolt, nut)
        turns = missed.turns
        answers += [
            Answer("diameter", "The bolt is thicker by", missed.diameter, "mm", 3),
            Answer("pitch", "Its pitch is longer by", missed.pitch, "mm", 3),
            Answer("overlap", "Of the nut's thread depth it reaches", missed.overlap, "%", 0),
            Answer("turns", "Turns until the pitches jam", turns, "", 1, words="" if turns is not None else "never"),
        ]
    trap = ("It goes on, and does not hold: keep these two apart.",) if verdict.trap else ()
    return Worked(tuple(answers), _drawing(bolt, nut), trap)


def _drawing(bolt: Thread, nut: Thread) -> Drawing:
    """Flanks of both side by side, some turns of them."""
    shapes: list[Line | Label] = []
    for thread, name, y, look in ((bolt, "bolt", 0.0, "strong"), (nut, "nut", 3.0, "part")):
        pitch, depth = float(thread.pitch), thread.height * 5 / 8
        points: list[Point] = []
        for turn in range(TURNS):
            points += [(turn * pitch, y + depth), ((turn + 0.5) * pitch, y)]
        shapes += [Line(tuple(points), look), Label((0, y - 0.4), f"{name} {thread}", "start")]
    return Drawing(
        "Their pitches side by side", f"{TURNS} turns of {bolt} above {TURNS} turns of {nut}.", tuple(shapes)
    )


SUM = Sum(
    slug="thread-fit",
    title="Does it thread together?",
    question="Does this bolt go into this nut, and what happens if it does not?",
    asks=(
        Ask("bolt", "Bolt", words=True, example="7/16-20 UNF"),
        Ask("nut", "Nut", words=True, example="M12x1.25"),
    ),
    work=_work,
    formula=("system, diameter, pitch and hand must all be equal", "overlap = (d − D1) / (D − D1), D1 = D − 1.0825 P"),
    source="ISO 261, ISO 965 and ASME B1.1 (from memory); profile ISO 68-1",
    assumes="Basic profiles of 60°, new threads.",
    limits="Never “close enough”: what spins on may hold a tenth of its load.",
    caution="Harness bolts M12 and 7/16 UNF are never interchanged: one spins into the other and strips.",
    offered=Offered(
        readings=("belt_torque", "thread_engagement", "joint_torque"), systems=("restraint",), checks=("verdict",)
    ),
)
