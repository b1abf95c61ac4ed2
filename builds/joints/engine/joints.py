"""Joints that carry a torque: marked, opened by work, signed, and due again after the first run."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime
from typing import Protocol

from builds.readings.engine.kinds_of_work import disturbed_by
from builds.readings.engine.kinds_said import kinds_said
from builds.work.engine.car_work import CarWork
from garage.engine.gear import Judged
from garage.engine.moments import date_words
from garage.engine.systems import SAFETY_SYSTEMS
from garage.engine.systems_said import systems_said
from garage.engine.units import UNITS, quantity_words, unit_for

# Kinds of work that open joints, as a joint may name them.
OPENERS = (
    *("joint_opened", "pin_out", "jam_nut", "steering_arm", "rack_moved", "bushing_or_mount"),
    *("rack_spacer", "front_trim", "rear_trim"),
    *("wheel_off", "wheel_or_spacer", "hub_opened", "spring_change", "caster", "rear_link"),
    *("hydraulics_opened", "seat_or_belt_moved", "steering_column", "mass_unit_moved"),
    *("chassis_weld", "part_weld", "paint_under_joint", "engine_mount", "crash"),
)
# Of these only the systems say which joint: a wheel that was off was off, whatever the job was about.
OF_ANY_JOINT = frozenset(
    {
        *("joint_opened", "pin_out", "jam_nut", "length_adjusted", "bushing_or_mount"),
        *("part_weld", "chassis_weld", "paint_under_joint"),
    }
)
OFF = 0.1
"""A mark further off its figure than this share of it wants a reason; our own choice, no source."""
OFF_SAID = "That is more than a tenth off the maker's figure: write down why."


@dataclass(frozen=True, slots=True)
class Marked:
    """The last torque mark: when, and whether a second person has signed it since.

    `ahead` is the day that is still to come for which it, or its signature, was written down. `ran_out` is how its
    wrench stood that day, where that was out of its date; `off` says how far off its figure it was brought, where
    that is too far.
    """

    at: datetime
    signed: bool
    ran_out: Judged | None = None
    off: str = ""
    ahead: date | None = None


@dataclass(frozen=True, slots=True)
class JointState:
    """loose, void, ahead, off, unsigned, due, wrench, asked or stands; `words` says why in a sentence, or nothing.

    Void is a mark that somebody saw to hold no more, off one that was never at its figure. Asked is due if the car
    ran, which nobody has said; wrench was torqued with one that was out of its date.
    """

    state: str
    words: str = ""


def state_of(
    safety: bool,
    mark: Marked | None,
    openings: Iterable[CarWork] = (),
    runs: Iterable[CarWork] = (),
) -> JointState:
    """How a joint stands: worse comes first. `openings` is the work that opened it, and what was seen of it.

    `runs` are those of the car, where the joint is due again after one. Work that opened the joint
    and ended at the moment of the mark ended before it. Source: joints opened are torqued and marked
    again, wheel nuts and jam nuts once more after the first session; common practice, no source.
    """
    if mark is None:
        return JointState("loose", "Nobody has marked it yet.")
    if opened := _opened(mark, tuple(openings)):
        return opened
    if mark.ahead:  # nobody knows what was done before it, and what after
        return JointState("ahead", f"It was written down for {date_words(mark.ahead)}, and that is still to come.")
    if safety and not mark.signed:
        return JointState("unsigned", " ".join(filter(None, ["Nobody else has looked at it.", mark.off])))
    if mark.off:
        return JointState("off", mark.off)
    later = [run for run in runs if run.ended and run.ended > mark.at]
    first = min(later, key=lambda run: (run.unsaid, run.ended), default=None)
    if safety and mark.ran_out and (first is None or first.unsaid):
        return JointState("wrench", mark.ran_out.sentence)
    if first is None:
        return JointState("stands")
    return JointState("asked" if first.unsaid else "due", first.words or "The first session was run since.")


def _opened(mark: Marked, openings: Collection[CarWork]) -> JointState | None:
    """By work, or by what was seen of it: nobody knows then what was turned."""
    for opening in openings:
        if opening.ended is None:
            return JointState("loose", f"“{opening.title}” {opening.not_over}.")
        if opening.ended > mark.at and not opening.seen:
            return JointState("loose", f"Opened by “{opening.title}” on {opening.day}.")
    untrue = next((sight for sight in openings if sight.ended and sight.ended > mark.at), None)
    return JointState("void", untrue.words) if untrue else None


def joint_said(name: str, systems: Collection[str], opened_by: Collection[str]) -> tuple[Collection[str], ...]:
    """What a joint of that name belongs to, and the kinds of work that open it (slugs): each where nobody said any.

    One that lives hang on and that no work opened would stay signed whatever is done to it.
    """
    of = systems or systems_said(name)
    any_joint = ["joint_opened"] if SAFETY_SYSTEMS.intersection(of) else []
    said = {*kinds_said(name, tuple(of)), *any_joint}
    return of, opened_by or tuple(kind for kind in OPENERS if kind in said)


class Openable(Protocol):
    """What kinds of work (slugs) open it, on which systems."""

    @property
    def opened_by(self) -> Collection[str]: ...

    @property
    def systems(self) -> Collection[str]: ...


def opens(joint: Openable, work: CarWork) -> bool:
    """By its kind; one that any joint may see opens those of the systems that both name.

    What a wheel off opens, all opens for which one comes off, on whatever system; not what was only seen.
    """
    opening = work.kinds & disturbed_by(joint.opened_by, seen=work.seen)
    if not work.seen and "wheel_off" in joint.opened_by and opening & disturbed_by(["wheel_off"]):
        return True
    if not joint.systems or not work.systems or not work.systems.isdisjoint(joint.systems):
        return bool(opening)
    return not opening <= OF_ANY_JOINT


def near_figure(figure: int) -> tuple[int, int]:
    """The least and the most (same unit) that the share allows beside the maker's figure."""
    give = int(OFF * figure)
    return figure - give, figure + give


def off_figure(torque: int, figure: int | None) -> bool:
    """Whether a torque is further from the maker's figure (same unit) than its share allows."""
    if figure is None:
        return False
    least, most = near_figure(figure)
    return not least <= torque <= most


def why_off(torque: int | None, figure: int | None, note: str, system: str) -> str:
    """`It was brought to 60 N·m, and its figure is 110 N·m: no wrench.`; empty where it is near enough.

    mN·m, told in the torque of the `system` of units.
    """
    if torque is None or figure is None or not off_figure(torque, figure):
        return ""
    why = f": {note.rstrip('.')}" if note else ""
    return f"It was brought to {torque_words(torque, system)}, and its figure is {torque_words(figure, system)}{why}."


def torque_words(mnm: int, system: str) -> str:
    return quantity_words(mnm, UNITS["mN·m"], unit_for("torque", system))
