"""Wheel offset: what moves where when wheel, offset or spacer is changed."""

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from parts.engine.fit.wheel import Rim, backspace, offset, overall_width, shift

OLD, NEW = "Now", "Wanted"


def _rim(given: Given, mark: str) -> Rim:
    """From its offset or its backspace, whichever was written."""
    width, et, back = (given.get(f"{mark}_{name}") for name in ("width", "offset", "backspace"))
    if (et is None) == (back is None) or width is None:
        raise SumError("Write the offset ET or the backspace, one of the two.", f"{mark}_offset")
    return Rim(width, et if et is not None else offset(back or 0, overall_width(width)))


def _work(given: Given, texts: Texts) -> Worked:
    old, new = (_rim(given, mark) for mark in ("old", "new"))
    moved = shift(old, new, given["spacer"] - given["old_spacer"])
    scrub = given.get("scrub")
    answers = (
        Answer("outer", "Outer edge moves out by", moved.outer, "mm", 1),
        Answer("inner", "Inner edge moves in by", moved.inner, "mm", 1),
        Answer("track", "Track grows by, both wheels", moved.track, "mm", 1),
        Answer("old_et", "Offset ET now", old.offset, "mm", 1),
        Answer("new_et", "Offset ET wanted", new.offset, "mm", 1),
        Answer("old_backspace", "Backspace now", backspace(old), "mm", 1),
        Answer("new_backspace", "Backspace wanted", backspace(new), "mm", 1),
        Answer("acts_as", "Wanted, with its spacer, acts as offset", new.offset - given["spacer"], "mm", 1),
        Answer("overall", "Over the flanges, about", overall_width(new.width), "mm", 0),
        Answer(
            "scrub",
            "Scrub radius becomes",
            None if scrub is None else scrub + moved.track / 2,
            "mm",
            1,
            words="" if scrub is not None else "not known: nobody measured it",
        ),
    )
    warnings = []
    if moved.inner > 0:
        warnings.append(
            f"The inner edge comes {moved.inner:.1f} mm nearer to spring and arms: look at full lock and in bump."
        )
    if moved.outer > 0:
        warnings.append(f"The outer edge comes {moved.outer:.1f} mm nearer to the wing: look in bump and at full lock.")
    return Worked(answers, _drawing(old, new, given), tuple(warnings))


def _drawing(old: Rim, new: Rim, given: Given) -> Drawing:
    """Both rims in section about the hub face, the middle of the car at the left."""
    shapes: list[Line | Label] = [Line(((0, -40), (0, 320)), "dash"), Label((0, -50), "hub face")]
    for level, (name, rim, spacer) in enumerate(((OLD, old, given["old_spacer"]), (NEW, new, given["spacer"]))):
        middle, half, top = spacer - rim.offset, overall_width(rim.width) / 2, 140 * level
        shapes.append(
            Line(
                ((middle - half, top), (middle + half, top), (middle + half, top + 80), (middle - half, top + 80)),
                "strong" if level else "part",
                closed=True,
            )
        )
        shapes.append(Line(((spacer, top), (spacer, top + 80)), "thin"))
        shapes.append(
            Label(
                (middle, top + 110),
                f"{name}: {rim.width:g}J ET{rim.offset:g}" + (f" + {spacer:g} mm" if spacer else ""),
            )
        )
    words = "Rims in section, the middle of the car at the left; the thin line is the mounting face."
    return Drawing("What moves where", words, tuple(shapes))


SUM = Sum(
    slug="wheel-offset",
    title="Wheel, offset and spacer",
    question="What moves where when the wheel or its spacer is changed?",
    asks=(
        Ask("old_width", "Width", "in", "8", above=2, most=20, group=OLD, figure="wheel_width"),
        Ask(
            "old_offset", "Offset ET", "mm", "35", least=-200, most=200, needed=False, group=OLD, figure="wheel_offset"
        ),
        Ask("old_backspace", "Or its backspace", "mm", least=-100, most=500, needed=False, group=OLD),
        Ask("old_spacer", "Spacer", "mm", "0", least=0, most=100, default="0", group=OLD, figure="wheel_spacer"),
        Ask("new_width", "Width", "in", "9", above=2, most=20, group=NEW),
        Ask("new_offset", "Offset ET", "mm", "20", least=-200, most=200, needed=False, group=NEW),
        Ask("new_backspace", "Or its backspace", "mm", least=-100, most=500, needed=False, group=NEW),
        Ask("spacer", "Spacer", "mm", "5", least=0, most=100, default="0", group=NEW),
        Ask("scrub", "Scrub radius now", "mm", least=-200, most=200, needed=False, group="If it is known"),
    ),
    work=_work,
    formula=(
        "outer = ΔW / 2 − ΔET + spacer; inner = ΔW / 2 + ΔET − spacer; track = 2 (spacer − ΔET)",
        "backspace = width over the flanges / 2 + ET; over the flanges = nominal + 1 in, about",
    ),
    source="Geometry; one inch for both flanges is common practice and sources disagree: measure it",
    assumes="The same tyre on both; offset is above 0 where the hub face is outboard of the middle of the rim.",
    limits="Says nothing of caliper clearance, nor of what a tyre of another width bulges.",
    caution="Never use a spacer without enough thread. Torque clean and dry, by hand, and again after a session.",
    offered=Offered(
        readings=("track_width", "scrub_radius", "lock_clearance"),
        kinds=("wheel_or_spacer",),
        systems=("wheels",),
        checks=("outer", "inner", "track"),
    ),
)
