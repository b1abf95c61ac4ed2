"""What somebody's own words say of the wheels: that the car stands on them, or that one comes off. Common practice."""

import re
from functools import lru_cache

from garage.engine.names_said import NameTable, plain

# What can be seen only of a car that stands on its wheels.
_ON_WHEELS = NameTable(
    {"wheels": "full lock, in bump, at bump, full bump, clear of tyre*, tyre clearance, tire clearance"}
)
# What is worked on with its wheel off, and no kind of work says so.
_AT_WHEEL = NameTable(
    {
        "wheel": """
            caliper, calliper, brake hose, flexi, flexi hose, wheel cylinder, drive shaft, half shaft, cv joint,
            cv boot, cv gaiter, drop link, gaiter
        """,
        "": "gear gaiter, gear lever gaiter, handbrake gaiter, shifter gaiter",
    }
)
# Of the wheels that came off; new ones are another kind of work.
_BACK_ON = re.compile(
    r"^(?:put )?(?:all )?(?:road |front |rear )?wheels? (?:back )?on(?: again| and (?:car )?down)?$|"
    r"^(?:refit|put back)(?: all)?(?: road| front| rear)? wheels?$"
)


@lru_cache(maxsize=4096)
def wheels_back_on_said(text: str) -> bool:
    """Whether that is all that is to be done: `Wheels on`, `Refit the wheels`."""
    return bool(_BACK_ON.match(plain(text)))


@lru_cache(maxsize=4096)
def on_wheels_said(text: str) -> bool:
    """Whether what is to be looked at can be seen only once the car is on its wheels."""
    return bool(_ON_WHEELS.said(text))


def at_wheel_said(text: str) -> bool:
    """Whether the text names something that is reached with a wheel off."""
    return bool(_AT_WHEEL.said(text))
