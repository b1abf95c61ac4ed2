"""The kinds of work on a car, and the readings that each makes void."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import lru_cache

from builds.readings.engine import resting_on
from garage.engine.vocabulary import known


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of work, the readings it disturbs at once, and the numbered trade rules behind it."""

    slug: str
    label: str
    voids: frozenset[str]
    rules: tuple[int, ...] = ()


_COLUMNS = {
    "rh": "ride_height",
    "cw": "corner_weights",
    "ca": "camber",
    "cs": "caster",
    "tf": "toe_front",
    "tr": "toe_rear",
    "bs": "bump_steer",
    "lc": "lock_clearance",
    "bb": "brake_bleed",
    "wt": "wheel_torque",
    "cg": "cg_height",
}

# Row by row what common practice in the trade marks stale; no published source. Trimming, the last
# small turns after bump steer was read, leaves bump steer standing; the rest goes as in a full change.
_MATRIX = """
    spring_change       rh cw ca cs tf tr .. lc .. wt cg
    tyre_or_pressure    rh cw ca .. tf tr .. lc .. wt cg
    mass_moved          rh cw ca .. tf tr .. .. .. .. cg
    bar_preload         rh cw .. .. .. .. .. lc .. .. ..
    camber_front        rh cw ca cs tf .. bs lc .. wt ..
    front_trim          rh cw ca cs tf .. .. lc .. wt ..
    rear_link           rh cw ca .. tf tr bs .. .. wt ..
    rear_trim           rh cw ca .. tf tr .. .. .. wt ..
    caster              rh cw ca cs tf .. bs lc .. wt ..
    steering_arm        .. .. .. .. tf .. bs lc .. wt ..
    rack_spacer         .. .. .. .. tf .. bs lc .. wt ..
    bushing_or_mount    rh cw ca cs tf tr bs lc .. wt ..
    chassis_weld        rh cw ca cs tf tr bs lc .. .. cg
    wheel_off           .. .. .. .. .. .. .. .. .. wt ..
    wheels_on           .. .. .. .. .. .. .. .. .. wt ..
    wheel_or_spacer     .. cw ca .. tf .. .. lc .. wt ..
    hydraulics_opened   .. .. .. .. .. .. .. .. bb wt ..
    mass_unit_moved     rh cw ca .. tf tr .. .. .. .. cg
    crash               rh cw ca cs tf tr bs lc bb wt cg
"""

# What the numbered rules add to the matrix, and the kinds of work that only they know.
# Where rule 1 ("redo a step, redo what stands right of it") and a matrix row differ, the row wins.
_RULES: list[tuple[str, str, str, tuple[int, ...]]] = [
    ("spring_change", "Spring, perch or damper changed", "hose_check", (11, 15, 19)),
    ("tyre_or_pressure", "Tyre size or pressure changed", "tyre_pressures", (11, 15)),
    ("mass_moved", "More than 5 kg added, moved or removed", "", (11,)),
    ("bar_preload", "Anti-roll bar preload or rate changed", "", (11, 12)),
    ("camber_front", "Front camber plate or arm adjusted", "", (13,)),
    ("front_trim", "Front camber or caster trimmed after bump steer was read", "", (13,)),
    ("rear_link", "Rear camber or toe link adjusted", "thread_engagement jam_nuts", (7, 8, 10, 13)),
    (
        "rear_trim",
        "Rear camber or toe trimmed after bump steer was read",
        "thread_engagement jam_nuts",
        (7, 8, 10, 13),
    ),
    ("caster", "Caster changed", "", (13,)),
    (
        "steering_arm",
        "Steering arm, knuckle, rack or tie-rod end changed",
        "ackermann lock_angles toggle_check hose_check routing joint_torque",  # none comes off its joint closed
        (5, 14, 15, 16, 19, 28),
    ),
    (
        "rack_spacer",
        "Rack spacer fitted, changed or taken out",
        (
            "ackermann lock_angles toggle_check hose_check routing"
            " thread_engagement jam_nuts joint_torque"  # it eats the thread of the rack's end
        ),
        (5, 7, 8, 14, 15, 16, 19, 28),
    ),
    ("bushing_or_mount", "Bush, ball joint, subframe or mount work", "toggle_check joint_torque", (5, 16)),
    ("chassis_weld", "Pickup point or chassis welded", "earths", (1, 2)),
    ("wheel_off", "Wheel off and on", "", (4,)),
    ("wheels_on", "Wheels on, the car put down on them", "", (4,)),
    (
        "wheel_or_spacer",
        "Wheel, spacer, offset or stud changed",
        "thread_engagement track_width scrub_radius toggle_check",
        (15, 16, 29),
    ),
    (
        "hydraulics_opened",
        "Caliper, hose, master cylinder or line opened",
        "pedal_travel brake_bias hose_check",
        (17, 19),
    ),
    ("mass_unit_moved", "Engine, gearbox, tank, battery or seat moved", "", (11,)),
    (
        "crash",
        "Crash or kerb strike",
        (
            "wheel_run_out belt_life helmet_life bearing_play thread_engagement joint_torque jam_nuts"
            " lock_angles toggle_check hose_check belt_geometry belt_torque"
            " extinguisher master_switch fuel_leak throttle_return"
        ),
        (33,),
    ),
    (
        "part_weld",
        "Steering, suspension or cage part welded or cut",
        "camber caster toe_front toe_rear bump_steer ackermann lock_angles lock_clearance toggle_check earths",
        (1, 2, 14, 15, 16),
    ),
    ("paint", "Painted on the car", "earths", (3,)),
    ("two_pack", "Two-pack paint sprayed", "", ()),
    ("paint_under_joint", "Painted where a joint clamps", "joint_torque", (30,)),
    (
        "joint_opened",
        "Steering or suspension joint opened",
        "joint_torque toe_front toe_rear",
        (5,),
    ),
    ("pin_out", "Split pin out", "joint_pins", (6,)),
    (
        "length_adjusted",
        "Rod or tie-rod end length adjusted",
        (
            "thread_engagement jam_nuts joint_torque toe_front toe_rear bump_steer ackermann lock_angles"
            " lock_clearance toggle_check wheel_torque"
        ),
        (5, 7, 8, 14, 15, 16),
    ),
    (
        "jam_nut",
        "Jam nut slackened, tie rod turned",
        "jam_nuts thread_engagement toe_front wheel_torque lock_clearance",
        (1, 7, 8),
    ),
    (
        "rack_moved",
        "Rack re-mounted or off centre",
        "toe_front lock_angles bump_steer lock_clearance toggle_check hose_check routing",
        (9, 15, 16, 19, 28),
    ),
    (
        "lock_stop",
        "Lock stop changed",
        "lock_angles lock_clearance toggle_check hose_check",
        (15, 16, 19),
    ),
    ("steering_column", "Steering wheel, hub or column work", "routing driver_fit", (28,)),
    ("brake_vacuum", "Brake servo or its vacuum hose off", "pedal_travel", ()),
    ("clutch_line", "Clutch line or cylinder opened", "fluid_levels leak_check", ()),
    ("friction_parts", "Pads or discs changed", "pad_bedding brake_bias", (18,)),
    ("hub_opened", "Hub opened", "bearing_play wheel_speed_gap wheel_torque", (20,)),
    ("seat_or_belt_moved", "Seat moved or belt out", "belt_geometry belt_torque driver_fit", (21,)),
    ("seat_work", "Seat or seat mounts worked on", "ballast_position corner_weights driver_fit", (22,)),
    ("hot_work", "Welding, cutting or grinding elsewhere", "", ()),
    ("glass_bonding", "Glass bonded in", "", ()),
    ("glued", "Glued or bonded on", "", ()),
    ("extinguisher_used", "Extinguisher discharged or out of date", "extinguisher", (23,)),
    ("wiring", "Wiring, battery or alternator work", "master_switch", (24,)),
    ("fuel_drained", "Fuel drained, its pressure let off", "fuel_leak", (25,)),
    ("fuel_line", "Fuel line opened", "fuel_leak", (25,)),
    ("coolant", "Coolant hose, radiator or pump opened", "coolant_bleed fan_switch", (26,)),
    ("throttle", "Throttle or pedal work", "throttle_return driver_fit", (27,)),
    ("engine_mount", "Engine mount work", "throttle_return routing", (27, 28)),
    ("engine_work", "Engine work", "routing", (28,)),
    ("engine_run", "Engine run where the car stands", "", ()),
    ("driven", "Car driven, or revved in gear on its wheels", "", ()),
    ("part_pulled", "Part pulled for another car", "printed_checklist", (31,)),
    ("job_reopened", "Job reopened", "printed_checklist", (32,)),
    (
        "first_run",
        "First session run",
        "wheel_torque jam_nuts leak_check tyre_pressures belt_check",
        (4, 36),
    ),
]


def _kinds() -> dict[str, Kind]:
    rows = dict(line.split(maxsplit=1) for line in _MATRIX.split("\n") if line.strip())
    return {
        slug: Kind(
            slug,
            label,
            frozenset(_COLUMNS[mark] for mark in rows.get(slug, "").split() if mark != "..") | frozenset(more.split()),
            rules,
        )
        for slug, label, more, rules in _RULES
    }


KINDS: dict[str, Kind] = _kinds()


# What taking a part off does to the readings, by its system: common practice, no source.
_PULLED: dict[str, tuple[str, ...]] = {
    "steering": ("steering_arm",),
    "brakes": ("hydraulics_opened", "friction_parts"),
    "suspension": ("bushing_or_mount",),
    "wheels": ("wheel_or_spacer",),
    "restraint": ("seat_or_belt_moved",),
    "seat": ("seat_work", "seat_or_belt_moved"),
    "fuel": ("fuel_line",),
    "fire": ("extinguisher_used",),
    "engine": ("engine_work",),
    "cooling": ("coolant",),
    "electrics": ("wiring",),
}


# A whole unit of these moves the mass of the car: engine, gearbox, tank, battery, seat.
_UNITS = frozenset({"engine", "gearbox", "fuel", "electrics", "seat"})


def pulled_kinds(systems: Iterable[str], *, unit: bool = False) -> tuple[str, ...]:
    """The kinds of work (slugs) that a car saw when a part of these systems (slugs) came off it.

    `unit` of a whole engine, gearbox, tank, battery or seat: then mass has moved.
    """
    off = tuple(systems)
    kinds = [kind for system in off for kind in _PULLED.get(system, ())]
    moved = ["mass_unit_moved"] if unit and not _UNITS.isdisjoint(off) else []
    return tuple(dict.fromkeys(["part_pulled", *kinds, *moved]))


FOLLOWS_WORK: dict[str, frozenset[str]] = {"brake_bleed": frozenset({"hydraulics_opened"})}
"""Readings (slugs) that such work (kinds) is not over without, whatever else the car must have. Trade rule 17."""


def follows_work(kinds: Iterable[str]) -> frozenset[str]:
    """The readings (slugs) that these kinds of work (slugs) are not over without."""
    done = frozenset(kinds)
    return frozenset(slug for slug, opens in FOLLOWS_WORK.items() if not opens.isdisjoint(done))


_ROD_TURNED = frozenset({"length_adjusted"})
# Work for which a wheel comes off, whatever it is called: it voids the torque of its nuts. A run takes none off.
_WHEEL_OFF = frozenset(slug for slug, kind in KINDS.items() if "wheel_torque" in kind.voids) - {"first_run"}


def disturbed_by(kinds: Collection[str], *, seen: bool = False) -> frozenset[str]:
    """The kinds of work (slugs) that disturb what these disturb, such as a joint or an item to look at.

    What a wheel off disturbs, all disturbs for which one comes off; none came off for what was only `seen`. A rod
    whose length is adjusted is turned with its jam nut slack.
    """
    if seen:
        return frozenset(kinds)
    wheel, nut = "wheel_off" in kinds, "jam_nut" in kinds
    return frozenset(kinds).union(_WHEEL_OFF if wheel else (), _ROD_TURNED if nut else ())


def likely_kinds(systems: Iterable[str], measures: Iterable[str] = ()) -> tuple[str, ...]:
    """What work may open of which nobody has said so yet (kinds), by its systems; none of a job that only measures.

    Until its finish says what it was, its place in the order of work is that of the worst it may be.
    """
    return () if any(measures) else pulled_kinds(systems)


def voided_by(kinds: Iterable[str]) -> frozenset[str]:
    """Every reading (slug) that no longer holds after these kinds of work (slugs).

    What rests on a void reading is void too. Raises ValueError for an unknown kind. Only
    measuring again mends it; finishing the job does not.
    """
    return _voided_by(frozenset(kinds))


@lru_cache(maxsize=4096)
def _voided_by(kinds: frozenset[str]) -> frozenset[str]:
    done = known(kinds, KINDS, "kind of work")
    return resting_on(frozenset().union(*(KINDS[kind].voids for kind in done)))
