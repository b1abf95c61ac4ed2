"""The demo garage's joints, from builds/demo/joints.toml: loose, standing, and one unsigned."""

import tomllib
import uuid
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

from builds.joints import actions as joints
from garage.engine.units import UNITS, convert, parse_number
from garage.models import Membership, Vehicle

FILE = Path(__file__).parents[1] / "joints.toml"
SIGNED_AFTER = timedelta(minutes=15)
UNIT = "N·m"


def fill(cars: Mapping[str, Vehicle], members: Mapping[str, Membership], *, at: datetime) -> None:
    """Cars and people by name."""
    data = tomllib.loads(FILE.read_text(encoding="utf-8"))
    for row in data["joints"]:
        typed, put_on = row.pop("newtonmetres"), row.pop("mark")
        torque = int(convert(parse_number(typed), UNITS[UNIT], UNITS["mN·m"]))
        joint = joints.add(cars[data["car"]], figure_mnm=torque, figure_from=data["figure_from"], **row)
        when = at - timedelta(days=put_on["days"])
        joints.mark(
            joint,
            by=members[put_on["by"]],
            at=when,
            key=uuid.uuid4(),
            torque_mnm=torque,
            typed=f"{typed} {UNIT}",
        )
        if "signed" in put_on:
            eyes = members[put_on["signed"]]
            joints.sign(joint, by=eyes, at=when + SIGNED_AFTER, key=uuid.uuid4())
