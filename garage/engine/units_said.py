"""Which parts are a whole unit by what somebody calls them. Common practice, no source."""

from functools import lru_cache

from garage.engine.names_said import NameTable

# What weighs as much as a whole engine, and what only belongs to one.
_UNITS = NameTable(
    {
        "unit": """
            engine, motor, long block, short block, cylinder block, gearbox, transmission, transaxle, fuel tank, petrol
            tank, gas tank, tank, bag tank, fuel cell, battery, seat, bucket seat, unit
        """,
        "small": """
            relay, fuse, fuse box, switch, sensor, sender, sender unit, control unit, head unit, ecu, mount, bracket,
            bolt, nut, stud, washer, cap, hose, pipe, line, pump, filter, cable, lead, clamp, terminal, tray, strap,
            belt, harness, loom, cover, gasket, seal, plug, cushion, insert, rail, runner, gauge, valve, foam, vent,
            isolator, lever, knob, linkage, bush, fan, wiper motor, starter motor, tap, union, catch, lamp, bulb, coil
        """,
    }
)


@lru_cache(maxsize=4096)
def unit_said(name: str) -> bool:
    """Whether a part of that name is a whole unit, heavy enough that the weights of a car change without it."""
    return _UNITS.said(name) == {"unit"}
