"""What values each kind of reading has: one row a figure, whole SI units within bounds."""

from dataclasses import dataclass

AXLES = (("fl", "fr"), ("rl", "rr"))
CORNERS = (("fl", "Front left"), ("fr", "Front right"), ("rl", "Rear left"), ("rr", "Rear right"))
FRONT, REAR = CORNERS[:2], CORNERS[2:]
TURNS = (("left", "Turned left"), ("right", "Turned right"))

# Each figure stands by itself, so that one wheel may be read without the others: who did one hub has one figure.
# Weights, ride heights and toe are of the whole car or of an axle. Common practice, no source.
READ_ALONE = frozenset(
    {
        *("camber", "caster", "wheel_torque", "lock_clearance", "bearing_play"),
        *("wheel_run_out", "wheel_speed_gap", "scrub_radius"),
    }
)

PASS, FAIL = 1, 0
# What is read of a driver and not of a car, so that it is copied from one car to another.
OF_DRIVER = frozenset({"driver_fit"})
CHECK, TEXT, FIGURE = "check", "text", "figure"


@dataclass(frozen=True, slots=True)
class Field:
    """One value of a reading: a figure kept as whole `stored` units, a check or words.

    A figure is shown in `shown`, metric and imperial, and lies between `least` and `most`
    (stored units); beyond `likely` (lowest, highest) it is kept once somebody said that it is right.
    Of a `mirrored` one both wheels of an axle mostly have the same sign. A check is PASS or FAIL.
    """

    slug: str
    label: str
    type: str = FIGURE
    quantity: str = ""
    stored: str = ""
    shown: tuple[str, str] = ("", "")
    least: int = 0
    most: int = 0
    likely: tuple[int, int] | None = None
    mirrored: bool = False

    def unit(self, system: str) -> str:
        """The symbol in which a garage of that system ("metric", "imperial") types and reads it."""
        return self.shown[system == "imperial"]


# The most a figure can be, by its quantity (stored units); it can be as far below nothing where
# figures below nothing are likely.
_CAN_BE = {
    "length": 20_000_000,
    "mass": 20_000_000,
    "angle": 180_000,
    "pressure": 10_000_000,
    "torque": 10_000_000,
    "share": 100_000,
    "voltage": 1_000_000,
}
# quantity, stored unit, shown units, likely from and to: beyond that a slip is likelier than a car.
# Common practice, no source.
_LENGTH = ("length", "µm", ("mm", "in"))
_FINE = ("length", "µm", ("mm", "thou"))
_ANGLE = ("angle", "m°", ("°", "°"))
_FIGURES = {
    "ride_height": (*_LENGTH, 20_000, 500_000),
    "cg_height": (*_LENGTH, 200_000, 1_200_000),
    "corner_weights": ("mass", "g", ("kg", "lb"), 50_000, 600_000),
    "camber": (*_ANGLE, -8_000, 5_000),
    "caster": (*_ANGLE, -5_000, 15_000),
    "toe_front": (*_ANGLE, -3_000, 3_000),
    "toe_rear": (*_ANGLE, -3_000, 3_000),
    "lock_angles": (*_ANGLE, 10_000, 75_000),
    "ackermann": (*_ANGLE, -20_000, 20_000),
    "tyre_pressures": ("pressure", "Pa", ("bar", "psi"), 50_000, 500_000),
    "wheel_torque": ("torque", "mN·m", ("N·m", "lbf·ft"), 30_000, 400_000),
    "pedal_travel": (*_LENGTH, 5_000, 200_000),
    "brake_bias": ("share", "m%", ("%", "%"), 30_000, 90_000),
    "lock_clearance": (*_LENGTH, 0, 150_000),
    "track_width": (*_LENGTH, 900_000, 2_500_000),
    "scrub_radius": (*_LENGTH, -150_000, 150_000),
    "bearing_play": (*_FINE, 0, 2_000),
    "wheel_run_out": (*_FINE, 0, 10_000),
    "wheel_speed_gap": (*_FINE, 0, 5_000),
    "earths": ("voltage", "mV", ("mV", "mV"), 0, 2_000),
    "belt_angle": (*_ANGLE, -20_000, 90_000),
    "driver_length": (*_LENGTH, 0, 1_500_000),
    "seat_back": (*_ANGLE, 0, 60_000),
}
_MIRRORED = ("camber", "caster")
_CORNER_KINDS = (
    *("ride_height", "corner_weights", "camber", "tyre_pressures", "wheel_torque"),
    *("lock_clearance", "bearing_play", "wheel_run_out", "wheel_speed_gap", "scrub_radius"),
)


def _figure(slug: str, label: str, row: str) -> Field:
    quantity, stored, shown, low, high = _FIGURES[row]
    most = _CAN_BE[quantity]
    least = -most if low < 0 else 0
    return Field(slug, label, FIGURE, quantity, stored, shown, least, most, (low, high), row in _MIRRORED)


def _figures(row: str, names: tuple[tuple[str, str], ...]) -> tuple[Field, ...]:
    return tuple(_figure(slug, label, row) for slug, label in names)


_MORE: dict[str, tuple[Field, ...]] = {
    "caster": _figures("caster", FRONT),
    "toe_front": _figures("toe_front", FRONT),
    "toe_rear": _figures("toe_rear", REAR),
    "cg_height": _figures("cg_height", (("height", "Height above the floor"),)),
    "track_width": _figures("track_width", (("front", "Front"), ("rear", "Rear"))),
    "lock_angles": _figures(
        "lock_angles",
        (
            ("left_inner", "Turned left, left wheel"),
            ("left_outer", "Turned left, right wheel"),
            ("right_inner", "Turned right, right wheel"),
            ("right_outer", "Turned right, left wheel"),
        ),
    ),
    "ackermann": _figures("ackermann", TURNS),
    "pedal_travel": _figures("pedal_travel", (("travel", "Pedal travel"),)),
    "brake_bias": _figures("brake_bias", (("front", "Share of the front"),)),
    "earths": _figures("earths", (("engine", "Engine to battery"), ("body", "Body to battery"))),
    "bump_steer": (
        _figure("travel", "Travel each way", "pedal_travel"),
        *_figures(
            "toe_front",
            (
                ("left_bump", "Left, toe change in bump"),
                ("left_droop", "Left, toe change in droop"),
                ("right_bump", "Right, toe change in bump"),
                ("right_droop", "Right, toe change in droop"),
            ),
        ),
    ),
    "belt_geometry": (
        *_figures(
            "belt_angle",
            (("shoulder", "Shoulder straps below level"), ("lap", "Lap straps from level")),
        ),
        Field("routing", "Routed flat, through nothing sharp", CHECK),
    ),
    "brake_bleed": (
        Field("firm", "Pedal firm, no air", CHECK),
        Field("dry", "No leak under pedal pressure", CHECK),
        Field("fluid", "Fluid and its grade", TEXT),
    ),
    "fluid_levels": (
        *(
            Field(slug, label, CHECK)
            for slug, label in (
                ("engine_oil", "Engine oil"),
                ("gearbox_oil", "Gearbox and final drive oil"),
                ("coolant", "Coolant"),
                ("brake_fluid", "Brake and clutch fluid"),
            )
        ),
    ),
    "driver_fit": (
        _figure("seat_pedals", "Seat back to clutch pedal, pressed", "driver_length"),
        _figure("seat_back", "Seat back, from upright", "seat_back"),
        _figure("seat_height", "Seat above the floor, at its lowest", "driver_length"),
        _figure("wheel_chest", "Steering wheel to chest", "driver_length"),
        _figure("wheel_height", "Middle of the steering wheel above the seat", "driver_length"),
        _figure("pedals_apart", "Brake pedal above the throttle pedal, pressed", "driver_length"),
        _figure("helmet_bar", "Helmet to the nearest bar", "driver_length"),
    ),
    "ballast_position": (Field("where", "Where it sits, and how much", TEXT),),
}


def fields_of(kind: str) -> tuple[Field, ...]:
    """The values of a kind of reading (slug), in the order in which they are read.

    Lengths in µm, masses in g, angles in thousandths of a degree, pressures in Pa, torques in
    mN·m, voltages in mV, shares in thousandths of a per cent; a kind without figures is one check.
    Toe-in, caster with the top rearward and leaning out at the top (camber) are positive: toe and
    caster by ISO 8855:2011 7.1.6 and its axes, camber by common practice.
    """
    if kind in _MORE:
        return _MORE[kind]
    if kind in _CORNER_KINDS:
        return _figures(kind, CORNERS)
    return (Field("passed", "The check", CHECK),)
