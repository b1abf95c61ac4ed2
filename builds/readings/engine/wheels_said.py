"""What somebody's own words say of the wheels: that the car stands on them, or that one comes off. Common practice."""

from functools import lru_cache

from garage.engine.names_said import NameTable

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


@lru_cache(maxsize=4096)
def on_wheels_said(text: str) -> bool:
    """Whether what is to be looked at can be seen only once the car is on its wheels."""
    return bool(_ON_WHEELS.said(text))


def at_wheel_said(text: str) -> bool:
    """Whether the text names something that is reached with a wheel off."""
    return bool(_AT_WHEEL.said(text))
