"""Addresses of joints and torque marks, and one row of each thing that they name."""

from builds.joints.models import Joint
from tests.factories import VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "joint_list": ("vehicle", "READS", "read"),
    "joint_add": ("vehicle", "WORKS", "form"),
    "joint_edit": ("joint", "WORKS", "form"),
    "joint_mark": ("joint", "WORKS", "form"),
    "joint_mark_many": ("vehicle", "WORKS", "form"),
    "joint_sign_many": ("vehicle", "WORKS", "form"),
    "joint_sign": ("joint", "WORKS", "form"),
    "joint_retire": ("joint", "ARRANGES", "send"),
}


def rows(cast):
    car = VehicleFactory(garage=cast.garage)
    return {"joint": Joint.objects.create(vehicle=car, name="Wheel nuts").pk}
