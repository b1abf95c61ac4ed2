"""Dimensions of a car that sums ask for: what each is called, and which work changes it."""

from dataclasses import dataclass

from builds.bench.frame.sums import Ask, Texts

AXLES = (("front", "Front"), ("rear", "Rear"))


@dataclass(frozen=True, slots=True)
class CarDimension:
    """`changed_by` are kinds of work (slugs): once such a job is done it is to be measured again.

    What is `of_spring` stays as it is where a perch was turned and no more.
    """

    label: str
    changed_by: tuple[str, ...] = ()
    of_spring: bool = False


# A crash may have bent any; a weld to a pickup point, a bush or a mount moves the suspension with all on it.
_MOUNTS = ("bushing_or_mount", "chassis_weld", "crash")
_STEERING = ("steering_arm", "crash")
_RACK = ("steering_arm", "rack_moved", "rack_spacer", "crash")
_WHEEL = ("wheel_or_spacer",)
_SPRING = ("spring_change",)

# Which work changes what: common practice, no source.
DIMENSIONS: dict[str, CarDimension] = {
    "wheelbase": CarDimension("Wheelbase", _MOUNTS),
    "track_front": CarDimension("Front track", ("wheel_or_spacer", "camber_front", "front_trim", *_MOUNTS)),
    "track_rear": CarDimension("Rear track", ("wheel_or_spacer", "rear_link", "rear_trim", *_MOUNTS)),
    "kingpins": CarDimension("Between the king-pin axes", ("steering_arm", "camber_front", *_MOUNTS)),
    "arm": CarDimension("Steering arm", _STEERING),
    "arm_in": CarDimension("Arm's tip points inboard by", _STEERING),
    "arms_point": CarDimension("The arms point", _STEERING),
    "inner": CarDimension("Between the inner joints", _RACK),
    "rack": CarDimension("Rack from the king-pin axes", _RACK),
    "rack_travel": CarDimension("Rack travel each way", _RACK),
    "rack_per_turn": CarDimension("Rack travel a turn of the wheel", _STEERING),
    "rim": CarDimension("Steering wheel, radius", ("steering_column",)),
    "lock_stop": CarDimension("Inner wheel at the lock stop", ("lock_stop", *_STEERING)),
    "lock_tyre": CarDimension(
        "Inner wheel at which a tyre touches", ("wheel_or_spacer", "tyre_or_pressure", *_STEERING)
    ),
    "lock_joint": CarDimension("Inner wheel at which a joint binds", _STEERING),
    "lock_touch": CarDimension("Inner wheel at which an arm or a tie rod touches", _STEERING),
    "tie_rod_pitch": CarDimension("Thread pitch of the tie rod", _STEERING),
    "rack_thread": CarDimension("Thread engaged in the rack's end", ("rack_spacer", "length_adjusted", *_STEERING)),
    "toe_per_turn": CarDimension("A turn of the tie rod moves toe by", _RACK),
    "steering_ratio": CarDimension("Steering ratio", _STEERING),
    "toe_across": CarDimension("Toe is measured across"),
    **{f"wheel_rate_{end}": CarDimension(f"Wheel rate, {end}", _SPRING, of_spring=True) for end, _ in AXLES},
    **{f"spring_rate_{end}": CarDimension(f"Spring rate, {end}", _SPRING, of_spring=True) for end, _ in AXLES},
    **{f"motion_ratio_{end}": CarDimension(f"Motion ratio, {end}", _MOUNTS) for end, _ in AXLES},
    **{
        f"unsprung_{end}": CarDimension(f"Not sprung, a {end} corner", ("wheel_or_spacer", "hub_opened"))
        for end, _ in AXLES
    },
    **{f"bump_{end}": CarDimension(f"Bump travel to the stop, {end}", _SPRING) for end, _ in AXLES},
    "perch_pitch": CarDimension("Thread pitch of the perch", _SPRING, of_spring=True),
    "tyre_radius": CarDimension("Radius of the tyre under load", ("tyre_or_pressure",)),
    "hub_front": CarDimension("Front hub above the floor", ("tyre_or_pressure",)),
    "hub_rear": CarDimension("Rear hub above the floor", ("tyre_or_pressure",)),
    "points_wishbone": CarDimension("Hard points, double wishbone", ("steering_arm", "rack_moved", *_MOUNTS)),
    "points_strut": CarDimension("Hard points, strut", ("steering_arm", "rack_moved", *_MOUNTS)),
    "wheel_width": CarDimension("Width of the wheel", _WHEEL),
    "wheel_offset": CarDimension("Offset of the wheel", _WHEEL),
    "wheel_spacer": CarDimension("Spacer", _WHEEL),
    "stud_free": CarDimension("Stud, free of the hub face", _WHEEL),
    "stud_across": CarDimension("Stud's thread, across", _WHEEL),
    "stud_pitch": CarDimension("Stud's pitch", _WHEEL),
    "wheel_pad": CarDimension("Wheel at its seat", _WHEEL),
    **{
        f"{end}_{slug}": CarDimension(f"{name}, {end}")
        for end, _ in AXLES
        for slug, name in (
            ("master", "Master cylinder bore"),
            ("piston", "Caliper piston bore"),
            ("pistons", "Pistons on one side of a caliper"),
        )
    },
    **{f"{end}_radius": CarDimension(f"Radius where the pad works, {end}", ("friction_parts",)) for end, _ in AXLES},
    "pedal_ratio": CarDimension("Pedal ratio", ("throttle",)),
    "gears": CarDimension("Gear ratios"),
    "final_drive": CarDimension("Final drive"),
    "alternator": CarDimension("Alternator", ("wiring",)),
    "battery": CarDimension("Battery, ampere-hours", ("wiring",)),
    "cap": CarDimension("Coolant cap", ("coolant",)),
}


def dimension_of(ask: Ask, texts: Texts) -> str:
    """Under what (slug) a car keeps the figure of an ask, "" for none; `{axle}` in it is what was chosen there."""
    return ask.figure.format_map({"axle": AXLES[0][0], **texts}) if ask.figure else ""
