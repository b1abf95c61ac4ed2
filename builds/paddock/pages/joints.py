"""The joints of a car among the lines of the event's day."""

from collections.abc import Mapping

from builds.joints.engine.joints import near_figure
from builds.joints.facts import JointLine
from builds.joints.pages.joint_page import WORD
from builds.joints.pages.many import TO_TORQUE
from builds.joints.pages.words import joint_torque_words, look_words
from builds.paddock.pages.rows import Act, ItemGroup, PaddockItem
from builds.steps.engine.looks import Eyes
from builds.steps.pages.looks import look_offer
from garage.clock import dated_words
from garage.engine.units import UNITS, convert, unit_for
from garage.models import Membership


def joint_groups(
    lines: list[JointLine],
    puts: Mapping[int, int],
    hands: Mapping[int, frozenset[int]],
    me: Membership,
    people: list[Eyes],
) -> list[ItemGroup]:
    """Those that want a hand first; no group where the car has no list.

    `puts` is how many marks and signatures each joint (pk) has, `hands` whose (pk) were on each that waits for a look,
    `people` are all hands.
    """
    rows = sorted(lines, key=lambda line: line.standing.state == "stands")
    items = tuple(_item(line, puts.get(line.joint.pk, 0), me, people, hands.get(line.joint.pk)) for line in rows)
    want = sum(line.standing.state != "stands" for line in lines)
    return [ItemGroup("Joints", f"{want} want a hand", items)] if items else []


def _item(
    line: JointLine, version: int, me: Membership, people: list[Eyes], hands: frozenset[int] | None
) -> PaddockItem:
    """`hands` (pk) were on it, of one that waits for a look."""
    units = me.garage.units
    figure, unit = joint_torque_words(line.joint, units), unit_for("torque", units).symbol
    acts = [Act("Torqued", "marked", "value" if figure else "")]
    if line.joint.safety:
        mine = hands is not None and look_offer(me, people, hands).mine
        acts.append(Act("I looked: sign", "signed", hidden=not mine))
    return PaddockItem(
        f"joint-{line.joint.pk}",
        line.joint.name,
        _state(line),
        _words(line),
        version,
        tuple(acts),
        why=f"The maker's figure: {figure}." if figure else "",
        asks=f"Torqued to, in {unit}",
        unit=unit,
        wrench=line.joint.wrench,
        keys="decimal",
        notes=True,
        near=_near(line.joint.figure_mnm, units),
    )


def _near(figure: int | None, system: str) -> tuple[str, ...]:
    """`99` and `121` of a figure of 110 N·m; none where there is no figure."""
    unit = unit_for("torque", system)
    bounds = near_figure(figure) if figure else ()
    return tuple(f"{float(convert(bound, UNITS['mN·m'], unit)):.6g}" for bound in bounds)


def _state(line: JointLine) -> str:
    if line.mark is None or line.standing.state in TO_TORQUE:
        return "open"
    return "signed" if line.signed else "marked"


def _words(line: JointLine) -> str:
    """`loose: opened by “Wheels off” on 12 Nov. Last marked by Tove Tue 2 Mar 18:20.`"""
    why = line.standing.words
    stands = f"{WORD[line.standing.state][1]}: {why}" if why else "stands."
    if line.mark is None:
        return stands
    if line.signed:
        return f"{stands} Last signed by {look_words(line.signed, dated_words(line.signed.at))}."
    return f"{stands} Last marked by {line.mark.by} {dated_words(line.mark.at)}."
