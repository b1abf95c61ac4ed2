"""The demo garage's joints, from builds/demo/joints.toml: loose, standing, and one unsigned."""

import uuid
from datetime import timedelta
from typing import Any

from builds.demo.actions.room import DemoRoom
from builds.joints import actions as joints
from garage.engine.units import UNITS, convert, parse_number

SIGNED_AFTER = timedelta(minutes=15)
UNIT = "N·m"


class DemoJoints(DemoRoom):
    file = "joints.toml"

    def fill(self) -> None:
        for given in self.data["joints"]:
            self.joint(**given)

    def joint(self, newtonmetres: str, mark: dict[str, Any], **fields: Any) -> None:
        torque = int(convert(parse_number(newtonmetres), UNITS[UNIT], UNITS["mN·m"]))
        car, source = self.cars[self.data["car"]], self.data["figure_from"]
        joint = joints.add(car, figure_mnm=torque, figure_from=source, **fields)
        when = self.at - timedelta(days=mark["days"])
        joints.mark(
            joint,
            by=self.members[mark["by"]],
            at=when,
            key=uuid.uuid4(),
            torque_mnm=torque,
            typed=f"{newtonmetres} {UNIT}",
            wrench=joint.wrench,
        )
        if "signed" in mark:
            joints.sign(joint, by=self.members[mark["signed"]], at=when + SIGNED_AFTER, key=uuid.uuid4())
