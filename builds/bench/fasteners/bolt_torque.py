"""Bolt torque: a range beside the maker's figure, and how near to proof a torque comes."""

from builds.bench.fasteners.steel import CLASSES, REUSED, nut_factor, preload_of, proof_load, torque_for
from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from parts.engine.fit.designation import parse
from parts.engine.fit.numbers import FitError
from parts.engine.fit.thread import Thread

SCATTER = 0.3
THICKEST = 39.0
"""mm across: the classes go no further. Source: ISO 898-1, M1.6 to M39; SAE J429, to 1½ in; from memory."""


def thread_of(text: str, asked: str = "thread") -> Thread:
    """The thread that was named, SumError with its sentence."""
    try:
        return parse(text)
    except FitError as refusal:
        raise SumError(str(refusal), asked) from None


def _work(given: Given, texts: Texts) -> Worked:
    thread = thread_of(texts["thread"])
    across, k = float(thread.diameter), given["k"]
    if across > THICKEST:
        raise SumError(f"The classes of bolts end at {THICKEST:g} mm across: take the maker's torque.", "thread")
    proof = proof_load(thread, texts["grade"])
    preload = REUSED * proof
    torque = torque_for(preload, across, k)
    answers = [
        Answer("torque", "Torque for 75 % of proof", torque, "N·m", 0),
        Answer("low", "The same with K 0.15, oiled", torque_for(preload, across, 0.15), "N·m", 0),
        Answer("high", "The same with K 0.20, dry", torque_for(preload, across, 0.20), "N·m", 0),
        Answer("preload", "Preload at 75 % of proof", preload / 1000, "kN", 1, SCATTER * preload / 1000),
        Answer("proof", "Proof load", proof / 1000, "kN", 1),
        Answer("area", "Stress area", thread.stress_area, "mm²", 1),
        *_diameters(across, float(thread.pitch)),
    ]
    if "friction" in given:
        bearing = (given["head"] + given["hole"]) / 2 if "head" in given and "hole" in given else 1.3 * across
        factor = nut_factor(thread, given["friction"], bearing)
        answers += [
            Answer("by_friction", "Torque with that friction", torque_for(preload, across, factor), "N·m", 0),
            Answer("k_friction", "Nut factor K with that friction", factor, "", 3),
        ]
    warnings = []
    asked = given.get("asked")
    if asked is not None:
        share = 100 * preload_of(asked, across, k) / proof
        answers.append(Answer("share", "The torque asked for comes to, of proof", share, "%", 0, SCATTER * share))
        if share > 100 * REUSED:
            warnings.append(
                f"{asked:.1f} N·m is {share:.1f} % of proof with K {k:g}: over 75 %. See the maker's figure."
            )
    return Worked(tuple(answers), _drawing(proof, preload, asked, across, k), tuple(warnings))


def _diameters(across: float, pitch: float) -> tuple[Answer, ...]:
    """mm on the flanks, of the nut's core and of the bolt's. Source: ISO 68-1, d − 0.6495, 1.0825 and 1.2269 P."""
    return (
        Answer("flanks", "Across the flanks", across - 0.649519 * pitch, "mm", 3),
        Answer("nut_core", "Core of the nut", across - 1.082532 * pitch, "mm", 3),
        Answer("bolt_core", "Core of the bolt", across - 1.226869 * pitch, "mm", 3),
    )


def _drawing(proof: float, preload: float, asked: float | None, across: float, k: float) -> Drawing:
    """Preloads as bars, up to proof."""
    rows = [("Proof", proof, "stop"), ("75 % of proof", preload, "part")]
    if asked is not None:
        rows.append(("As asked", preload_of(asked, across, k), "strong"))
    longest = max(size for _, size, _ in rows)
    shapes: list[Line | Label] = []
    for level, (name, size, look) in enumerate(rows):
        end, top = 100 * size / longest, 20 * level
        shapes.append(Line(((0, top), (end, top), (end, top + 8), (0, top + 8)), look, closed=True))
        shapes.append(Label((0, top - 2), f"{name} {size / 1000:.1f} kN", "start"))
    words = "; ".join(f"{name} {size / 1000:.1f} kN" for name, size, _ in rows)
    return Drawing("Preload and proof", f"{words}.", tuple(shapes))


SUM = Sum(
    slug="bolt-torque",
    title="Bolt torque",
    question="What torque does this thread and class take, and is the one asked for too much?",
    asks=(
        Ask("thread", "Thread", words=True, example="M12x1.75"),
        Ask("grade", "Class or grade", choices=tuple((one, one) for one in CLASSES), default="8.8"),
        Ask("k", "Nut factor K", "", "0.2", least=0.08, most=0.4, default="0.2", note="0.20 dry, 0.15 oiled."),
        Ask("friction", "Or friction, in thread and under the head", "", least=0.03, most=0.5, needed=False),
        Ask("head", "Bearing face, across", "mm", above=0, most=100, needed=False, note="Only with friction."),
        Ask("hole", "Hole, across", "mm", above=0, most=100, needed=False, note="Only with friction."),
        Ask("asked", "Torque asked for", "N·m", "82", above=0, most=2_000, needed=False),
    ),
    work=_work,
    formula=(
        "stress area = π / 4 (d − 0.9382 P)², unified π / 4 (d − 0.9743 / n)²; proof load = proof stress × area",
        "preload = 0.75 proof load; torque = K d preload",
    ),
    source="ISO 898-1; SAE J429 (from memory); T = K d F and 75 % by Shigley, as cited",
    assumes="Clean steel in steel without a gasket; class as stamped: without a stamp it is not known.",
    limits="Torque gives preload within 30 %. A self-locking nut's own torque is added. K by published "
    "tables: dry 0.18 to 0.27, oiled 0.10 to 0.26, zinc 0.17 to 0.35.",
    caution="Use the maker's torque. These figures are not for wheel nuts, engine internals, bolts that yield, alloy.",
    offered=Offered(
        readings=("joint_torque", "belt_torque"), systems=("suspension", "steering"), checks=("low", "high", "share")
    ),
)
