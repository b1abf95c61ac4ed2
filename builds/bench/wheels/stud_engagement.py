"""Stud engagement: turns of thread that hold a wheel, with this spacer."""

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked
from parts.engine.fit.studs import engagement_needed, free_stud, full_turns, stud_check

STEEL, SOFT = "steel", "soft"


def _work(given: Given, texts: Texts) -> Worked:
    soft = texts["nut"] == SOFT
    across, pitch, spacer, pad = given["across"], given["pitch"], given["spacer"], given["pad"]
    check = stud_check(given["free"], across, pitch, pad=pad, spacer=spacer, soft=soft)
    needed = engagement_needed(across, soft)
    answers = (
        Answer("turns", "Turns engaged", check.turns, "", 1),
        Answer("turns_needed", "Turns wanted", full_turns(needed, pitch), "", 1),
        Answer("engaged", "Thread engaged", check.engaged, "mm", 1),
        Answer("needed", "Thread wanted", needed, "mm", 1),
        Answer("lacking", "Lacking", check.lacking, "mm", 1),
        Answer("stud", "Stud that must stand free of the hub face", free_stud(spacer, pad, needed), "mm", 1),
        Answer("thickest", "Thickest spacer that this stud bears", max(0.0, given["free"] - pad - needed), "mm", 1),
    )
    short = f"{check.lacking:.1f} mm of thread is lacking: do not run it. Longer studs, or a thinner spacer."
    return Worked(answers, _drawing(given, needed, check.engaged), () if check.enough else (short,))


def _drawing(given: Given, needed: float, engaged: float) -> Drawing:
    """The stud from the hub face outward: spacer, wheel, thread engaged, and below it what is wanted."""
    shapes: list[Line | Label] = []
    x = 0.0
    for name, length, look in (
        ("spacer", given["spacer"], "thin"),
        ("wheel", given["pad"], "thin"),
        ("nut", engaged, "strong"),
    ):
        if length:
            shapes.append(Line(((x, 0), (x + length, 0), (x + length, 14), (x, 14)), look, closed=True))
            shapes.append(Label((x + length / 2, -3), name))
        x += length
    start = given["spacer"] + given["pad"]
    shapes.append(Line(((start, 20), (start + needed, 20), (start + needed, 34), (start, 34)), "dash", closed=True))
    shapes.append(Label((start + needed / 2, 42), "wanted"))
    words = f"From the hub face: {engaged:.1f} mm of thread engaged, {needed:.1f} mm wanted."
    return Drawing("The stud to scale", words, tuple(shapes))


SUM = Sum(
    slug="stud-engagement",
    title="Stud engagement",
    question="Is there enough thread with this spacer?",
    asks=(
        Ask("free", "Stud, free of the hub face", "mm", "38", above=0, most=200, figure="stud_free"),
        Ask("across", "Thread, across", "mm", "12", above=0, most=40, figure="stud_across"),
        Ask("pitch", "Pitch", "mm", "1.5", least=0.5, most=5, figure="stud_pitch"),
        Ask("spacer", "Spacer", "mm", "15", least=0, most=100, default="0"),
        Ask("pad", "Wheel at its seat", "mm", "8", least=0, most=60, figure="wheel_pad"),
        Ask("nut", "Nut", choices=((STEEL, "Steel"), (SOFT, "Aluminium, or tapped alloy")), default=STEEL),
    ),
    work=_work,
    formula=(
        "engaged = free − spacer − wheel at its seat; wanted 1.0 × across, 1.5 × in soft metal",
        "turns = engaged / pitch",
    ),
    source="1.0 across in steel, common practice; 1.5 in soft metal, attributed to Carroll Smith",
    assumes="Full-depth thread all along; a closed nut bottoms out before its depth.",
    limits="Count the turns by hand as well: what is short shows in turns, not in a sum.",
    caution="Never use a spacer or adapter without enough thread. A spacer thicker than the spigot wants its own.",
    offered=Offered(
        readings=("thread_engagement", "wheel_torque"), systems=("wheels",), checks=("turns", "turns_needed")
    ),
)
