"""What somebody's own words say of a joint, a line or a pedal that he saw. Common practice, no source."""

from functools import lru_cache

from builds.readings.engine.kinds_said import kinds_said
from garage.engine.denied import undenied
from garage.engine.names_said import NameTable
from garage.engine.systems_said import fault_said, hurts_said, systems_said

LOOSE, LEAKS, SOFT, FLAT, LOW, BENT, FAULTY = "loose", "leaks", "soft", "flat", "low", "bent", "faulty"
# A joint that is not as it was left, a line that lets something out, a pedal that does not hold, and so on.
_SEEN = NameTable(
    {
        LOOSE: """
            loose*, slack, slackened, undone, not tight, not torqued, untorqued, under torqued, finger tight,
            hand tight, backed off, missing, lost, gone, fell off, fell out, falls off, falls out, came off, came out,
            came undone, fallen off, fallen out, snap*, shear*, broke*, stripped, cross thread*, has play, play in,
            play at, much play, some play, slop*, wobbl*, has moved, stripe moved, mark moved, stripe broken,
            mark broken
        """,
        LEAKS: "leak*, weep*, drip*, seep*, smell*, stink*, damp, wet",
        SOFT: "soft, spongy, long pedal, to floor, sink*, no pedal, no brake, not hold*",
        FLAT: "flat, puncture*, deflate*, going down, loses air, loses pressure",
        LOW: "low, empty, below minimum, under minimum",
        BENT: "bent, bend*, buckled, kerbed, curbed, out of true",
        "": """
            flat spot*, flat bar, flat file, flat bed, low profile, low beam, low loader, low range, puncture kit,
            leak test*, leak check*, drip tray, loose change, soft top, soft compound, wet tyre, wet tire, wets,
            stripped down, gone through, gone over, came out well, snap ring, rotor
        """,
    }
)
# An item of a list that asks whether something is held fails when it is not.
_HELD = NameTable({LOOSE: "torque*, tight*, there, secure*, fixed, clamp*, lock wire*, pinned, held, locked, play"})
# The readings that say no more what they said, by what was seen and by the work that would have done it.
_UNTRUE: dict[str, dict[str, str]] = {
    LOOSE: {
        "wheel_off": "wheel_torque",
        "wheel_or_spacer": "wheel_torque",
        "hub_opened": "bearing_play",
        "joint_opened": "joint_torque",
        "pin_out": "joint_pins",
        "jam_nut": "jam_nuts toe_front",
        "rear_link": "jam_nuts toe_rear",
        "steering_arm": "toe_front",
        "rack_moved": "toe_front",
        "bushing_or_mount": "camber caster toe_front toe_rear",
        "camber_front": "camber",
        "caster": "caster",
        "spring_change": "ride_height",
        "seat_or_belt_moved": "belt_torque belt_check",
        "fuel_line": "fuel_leak",
    },
    LEAKS: {
        "hydraulics_opened": "brake_bleed pedal_travel leak_check fluid_levels",
        "clutch_line": "leak_check fluid_levels",
        "fuel_line": "fuel_leak leak_check",
        "fuel_drained": "fuel_leak leak_check",
        "coolant": "coolant_bleed leak_check fluid_levels",
        "engine_work": "leak_check fluid_levels",
    },
    SOFT: {"hydraulics_opened": "brake_bleed pedal_travel"},
    FLAT: {"tyre_or_pressure": "tyre_pressures"},
    LOW: {
        "hydraulics_opened": "fluid_levels brake_bleed",
        "coolant": "fluid_levels coolant_bleed",
        "engine_work": "fluid_levels",
        "tyre_or_pressure": "tyre_pressures",
        "extinguisher_used": "extinguisher",
    },
    BENT: {
        "steering_arm": "toe_front bump_steer",
        "jam_nut": "toe_front",
        "bushing_or_mount": "camber caster toe_front toe_rear bump_steer",
        "rear_link": "camber toe_rear",
        "wheel_or_spacer": "wheel_run_out",
        "spring_change": "ride_height",
    },
    FAULTY: {
        "throttle": "throttle_return",
        "wiring": "master_switch",
        "seat_or_belt_moved": "belt_life belt_check",
    },
}
# What opens a line leaves a union that is not tight; a soft pedal says nothing of a joint.
_OPENS = {LOOSE: None, LEAKS: frozenset({"hydraulics_opened", "clutch_line", "fuel_line", "fuel_drained", "coolant"})}
# What is off on the way to something else says nothing of its own: each of these of its own system alone.
_OF_ITS_OWN = {"wheel_off": "wheels", "wheel_or_spacer": "wheels", "seat_or_belt_moved": "restraint"}


@lru_cache(maxsize=16_384)
def untrue_since(line: str) -> tuple[frozenset[str], frozenset[str]]:
    """By words of somebody who saw it: the kinds of work (slugs) whose joints are not as they were left, and the
    readings (slugs) that say no more what they said. Mostly nothing of what is only worn, or of what the readings
    do not ask.
    """
    systems, stops = systems_said(line), hurts_said(line)
    kinds = (kind for kind in kinds_said(line, systems) if kind not in _OF_ITS_OWN or _OF_ITS_OWN[kind] in systems)
    seen = _SEEN.said(undenied(line)) | ({FAULTY} if fault_said(line) else frozenset())
    return _untrue(seen, frozenset(kind for kind in kinds if stops or kind != "wiring"))


def untrue_by_item(text: str, note: str, kinds: frozenset[str]) -> tuple[frozenset[str], frozenset[str]]:
    """As `untrue_since`, of an item of a list that failed with that note; `kinds` are its own."""
    said, told = untrue_since(note), _untrue(_SEEN.said(f"{text}. {note}") | _HELD.said(text) | {FAULTY}, kinds)
    return said[0] | told[0], said[1] | told[1]


@lru_cache(maxsize=4096)
def _untrue(seen: frozenset[str], kinds: frozenset[str]) -> tuple[frozenset[str], frozenset[str]]:
    opened: set[str] = set()
    untrue: set[str] = set()
    for sort in seen:
        untrue.update(slug for kind in kinds for slug in _UNTRUE[sort].get(kind, "").split())
        if sort in _OPENS:
            opened |= kinds if (those := _OPENS[sort]) is None else kinds & those
    return frozenset(opened), frozenset(untrue)
