"""A joint as its form is sent, marked and signed as by its page, and how it then stands."""

from builds.joints.facts import joint_lines
from tests.factories import NOW

FORM = {
    "name": "Wheel nuts, front left",
    "systems": ["wheels"],
    "opened_by": ["wheel_off"],
    "thread": "M12×1.5",
    "figure_mnm": "110",
    "figure_from": "workshop manual",
    "again_after_run": "on",
}


def mark(client, joint, **data):
    return client.press(f"/joints/{joint.pk}/mark/", {"torque_mnm": "110", **data})


def sign(client, joint):
    return client.press(f"/joints/{joint.pk}/sign/")


def state(car):
    (line,) = joint_lines(car.garage, [car], NOW)[car.pk]
    return line.standing.state
