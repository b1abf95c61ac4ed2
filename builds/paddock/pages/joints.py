"""The joints of a car among the lines of the event's day."""

from builds.joints.facts import JointLine
from builds.joints.pages.words import figure_words
from builds.paddock.pages.rows import Act, ItemGroup, PaddockItem
from garage.clock import dated_words
from garage.engine.units import unit_for


def joint_groups(lines: list[JointLine], units: str) -> list[ItemGroup]:
    """Those that want a hand first; no group where the car has no list."""
    rows = sorted(lines, key=lambda line: line.standing.state == "stands")
    items = tuple(_item(line, units) for line in rows)
    want = sum(line.standing.state != "stands" for line in lines)
    return [ItemGroup("Joints", f"{want} want a hand", items)] if items else []


def _item(line: JointLine, units: str) -> PaddockItem:
    figure = figure_words(line.joint, units)
    acts = [Act("Torqued", "marked", "value" if figure else "")]
    if line.joint.safety:
        acts.append(Act("I looked: sign", "signed"))
    return PaddockItem(
        f"joint-{line.joint.pk}",
        line.joint.name,
        _state(line),
        _words(line),
        line.version,
        tuple(acts),
        why=f"The maker's figure: {figure}." if figure else "",
        asks=f"Torqued to, in {unit_for('torque', units).symbol}",
        keys="decimal",
        notes=True,
    )


def _state(line: JointLine) -> str:
    if line.mark is None or line.standing.state in ("loose", "due"):
        return "open"
    return "signed" if line.signed else "marked"


def _words(line: JointLine) -> str:
    """`loose: Wheels off opened it on 12 Nov. Last marked by Tove 18:20.`"""
    why = line.standing.words
    stands = f"{line.standing.state}: {why}" if why else f"{line.standing.state}."
    if line.mark is None:
        return stands
    last, did = (line.signed, "signed") if line.signed else (line.mark, "marked")
    return f"{stands} Last {did} by {last.by} {dated_words(last.at)}."
