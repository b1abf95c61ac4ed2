"""Torques in words, in the garage's unit, and who looked at them."""

from builds.joints.models import Joint, JointMark
from builds.steps.pages.looks import looked_words
from garage.engine.units import UNITS, quantity_words, unit_for


def figure_words(joint: Joint, system: str) -> str:
    """`110 N·m`, in the garage's unit; empty where the maker's figure is not known."""
    if joint.figure_mnm is None:
        return ""
    return torque_words(joint.figure_mnm, system)


def torque_words(mnm: int, system: str) -> str:
    return quantity_words(mnm, UNITS["mN·m"], unit_for("torque", system))


def look_words(look: JointMark, when: str = "") -> str:
    return looked_words(look.by, look.outsider, look.written_by, alone=look.alone, when=when)
