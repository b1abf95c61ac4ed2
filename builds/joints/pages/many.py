"""Which joints of a car are offered to be torqued, or looked at, in one form."""

from collections.abc import Collection
from datetime import datetime

from builds.joints.facts import JointLine, hands_to_sign, joint_lines
from builds.joints.models import Joint
from builds.joints.pages.joint_page import last_words
from builds.steps.facts.looks import hands_of
from builds.steps.pages.looks import look_offer
from garage.models import Membership, Vehicle

TO_TORQUE = ("loose", "void", "off", "due", "asked", "ahead", "wrench")


def to_torque(vehicle: Vehicle, at: datetime, also: Collection[int] = ()) -> list[Joint]:
    """Those that want a torque, and those (pk) in `also`."""
    lines = joint_lines(vehicle.garage, [vehicle], at).get(vehicle.pk, [])
    return [line.joint for line in lines if line.standing.state in TO_TORQUE or line.joint.pk in also]


def to_look_at(vehicle: Vehicle, me: Membership, at: datetime) -> list[tuple[JointLine, str]]:
    """Those that are marked and that I may look at, each with its last mark in words."""
    people = hands_of(vehicle.garage_id)
    lines = joint_lines(vehicle.garage, [vehicle], at).get(vehicle.pk, [])
    unsigned = [line for line in lines if line.standing.state == "unsigned"]
    hands = hands_to_sign(vehicle.garage, unsigned)
    return [
        (line, last_words(line, vehicle.garage.units, at))
        for line in unsigned
        if look_offer(me, people, hands[line.joint.pk]).mine
    ]
