"""What somebody's own words take out of a car, or put into it, that weighs. Common practice, no source."""

from functools import lru_cache
from itertools import product

from garage.engine.names_said import NameTable

# The kinds of work that go with each as it comes out or goes in.
_UNITS = {
    "mass_unit_moved engine_mount engine_work": "engine, motor, lump, long block, short block, power unit",
    "mass_unit_moved engine_mount": """
        gearbox, g box, transmission, tranny, trans, transaxle, bell housing, transfer box, transfer case, clutch,
        clutch kit, clutch pack, flywheel
    """,
    "mass_unit_moved bushing_or_mount joint_opened": """
        diff, differential, lsd, limited slip, limited slip diff, final drive, crown wheel, crown wheel and pinion, cwp,
        pinion, diff head, diff housing, diff carrier, diff unit
    """,
    "mass_unit_moved fuel_line": "fuel tank, petrol tank, gas tank, tank, bag tank, fuel cell, foam cell, safety cell",
    "mass_unit_moved wiring": "battery, batt",
    "mass_unit_moved seat_work seat_or_belt_moved": """
        seat, bucket seat, bucket, driver seat, passenger seat, race seat, racing seat
    """,
}
# What is only of such a unit, by what is said right after it.
_OF_UNIT = """
    oil, fluid, coolant, water, air, filter, plug, cap, mount, mounting, bracket, bush, bolt, nut, stud, screw, washer,
    seal, gasket, cover, hose, pipe, line, cable, lead, loom, wiring, harness, terminal, clamp, tray, strap, belt,
    pulley, fan, pump, sensor, sender, switch, relay, fuse, light, lamp, gauge, temp, temperature, lever, linkage, knob,
    gaiter, boot, pedal, slave, slave cylinder, master, master cylinder, hydraulic, fork, vent, breather, foam, filler,
    sticker, bay, management, ecu, map, tune, tuning, note, noise, rattle, level, check, test, number, charger, charge,
    charging, isolator, cushion, insert, rail, runner, heater, trim, speed, start, tap, union, valve, cleaner, paint,
    enamel, log, adjust*, bite, judder, free play, sump, dipstick, jack, hoist, crane, stand, shaft, box, drill, post
"""
_IN = "in, back in, home, back"
_MOVES = """
    out, off, move, moved, moving, relocat*, reposition*, set back, drop, dropped, dropping, pull, pulled, pulling,
    pulls, remove*, removing, removal, swap*, swop*, change, changed, changing, replac*, renew*, refit*, fit, fitted,
    fitting, lift, lifted, lifting, hoist*, instal*, reinstal*, new, rebuil*, overhaul*, in and out, whip, whipped,
    yank*, take, taking, took, taken, strip, stripped, unbolt*, lowered, binned, ditch*, delet*, upgrad*, convert*,
    conversion, r and r, shim*, reshim*, backlash, preload, heavier, lighter, to boot, into boot, in boot
"""
# What only sounds as if something were taken out, or is no such unit.
_STAYS = """
    sort out, sorted out, find out, found out, work out, worked out, figure out, check out, suss out, run out, runs out,
    ran out, cut out, cuts out, cutting out, clean out, wash out, dry out, turn off, switch off, cool off, blow out, off
    side, off road, top up, wiper motor, starter motor, fan motor, heater motor, window motor, blower motor, trans am,
    header tank, catch tank, swirl tank, washer tank, expansion tank, oil tank, water tank, air tank, coolant tank, fuse
    box, motor sport, motor club, bucket and, mop bucket, wash bucket, lump hammer, back seat driver, valve seat, spring
    seat, rack pinion, rack and pinion, new owner, fit for
"""
# A gearbox, to those who take one out.
_BOX = """
    box out, box in, box off, box back in, drop box, do clutch, clutch needs doing, clutch job, clutch done, clutch due
"""
MOVES = "moves"


def _names(text: str) -> list[str]:
    return [" ".join(part.split()) for part in text.split(",")]


def _table() -> dict[str, str]:
    units = [name for names in _UNITS.values() for name in _names(names)]
    parts = {f"{unit} {part}" for unit, part in product(units, _names(_OF_UNIT))}.difference(units, _names(_STAYS))
    fitted = {
        f"{MOVES} {kinds}": ",".join(f"{unit} {back}" for unit, back in product(_names(names), _names(_IN)))
        for kinds, names in _UNITS.items()
    }
    box = next(kinds for kinds, names in _UNITS.items() if "gearbox" in names)
    fitted[f"{MOVES} {box}"] += f",{_BOX}"
    return {**_UNITS, **fitted, MOVES: _MOVES, "": ",".join([*sorted(parts), *_names(_STAYS)])}


_TABLE = NameTable(_table())


@lru_cache(maxsize=4096)
def units_moved(text: str) -> frozenset[str]:
    """The kinds of work (slugs) of the heavy units that come out or go in by these words."""
    said = _TABLE.said(text)
    return said - {MOVES} if MOVES in said else frozenset()


def moves_said(text: str) -> bool:
    """Whether the words take something out or off, or put something in."""
    return MOVES in _TABLE.said(text)
