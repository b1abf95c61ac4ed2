"""Torques in words, in the garage's unit, and who looked at them."""

from builds.bench.fasteners.torque_range import torque_range
from builds.joints.engine.joints import torque_words
from builds.joints.models import Joint, JointMark
from builds.steps.pages.looks import looked_words


def joint_torque_words(joint: Joint, system: str) -> str:
    """`110 N·m`, in the garage's unit; empty where the maker's figure is not known."""
    if joint.figure_mnm is None:
        return ""
    return torque_words(joint.figure_mnm, system)


def range_words(joint: Joint, system: str) -> tuple[str, str]:
    """What thread and class take, as an estimate beside the maker's figure, and what is said of too much."""
    asked = None if joint.figure_mnm is None else joint.figure_mnm / 1000
    known = torque_range(joint.thread, joint.klass, asked)
    if known is None:
        return "", ""
    low, high = (torque_words(round(torque) * 1000, system) for torque in (known.low, known.high))
    said = f"Thread and class take {low} oiled to {high} dry at 75 % of proof: an estimate, the maker's figure wins."
    loud = f"The figure comes to {known.share:.0f} % of proof, over 75 %: read it again." if known.too_much else ""
    return said, loud


def look_words(look: JointMark, when: str = "") -> str:
    return looked_words(look.by, look.outsider, look.written_by, alone=look.alone, when=when)
