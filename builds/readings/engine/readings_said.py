"""Which readings work of somebody's own words takes. Common practice, no source."""

from builds.readings.engine.vocabulary import in_measuring_order
from garage.engine.names_said import NameTable

_READINGS = NameTable(
    {
        "wheel_torque": """
            torque wheel, torque up wheel, torque wheel nut, torque up wheel nut, torque lug nut, torque lug, torque
            nut, torque wheel bolt, torque road wheel, torque all wheel, torque all wheel nut, wheel torque, wheel nut
            torque, lug torque, lug nut torque, check wheel torque, tighten wheel nut, tighten wheel, tighten lug nut,
            wheel nut check, re torque wheel, re torque wheel nut, torque check wheel, torque centre lock, wheel
            torqued, wheel all torqued, wheel nut torqued, wheel bolt torqued, lug nut torqued, tighten wheel bolt
        """,
        "brake_bleed": "bleed brake, bleed front brake, bleed rear brake, brake bleed, brake bleeding, bleed all four",
        "toe_front": """
            set toe, track it up, track wheel, track up, set tracking, set front toe, front toe,
            check toe, tracking, toe in, toe out, measure toe
        """,
        "toe_rear": "set rear toe, rear toe",
        "toe_front toe_rear": "alignment, wheel alignment, four wheel alignment, align, align car, align wheel",
        "corner_weights": """
            corner weight, corner weigh, corner weighting, corner balance, corner balancing, on scales, weigh car,
            weigh it, weigh, re weigh
        """,
        "lock_clearance": "lock to lock, lock to lock clearance, check full lock, full lock clearance, lock clearance",
        "pad_bedding": "bed in pad, bed pad in, bed in brake, bed brake in, bed in disc",
        "ride_height": "set ride height, measure ride height, ride height",
        "camber": "set camber, adjust camber, measure camber, check camber",
        "caster": "measure caster, check caster, measure castor, check castor",
        "bump_steer": "bump steer",
        "tyre_pressures": "tyre pressure, tire pressure, check pressures, set pressures",
        "": """
            headlight alignment, headlamp alignment, panel alignment, door alignment, bonnet alignment, align headlight,
            align headlamp, align panel, align door, align bonnet, trailer tyre pressure
        """,
    }
)
# What says no more of a measurement than that it is taken.
_SAYS_NO_MORE = frozenset(
    {"all", "and", "by", "final", "finally", "four", "hand", "last", "of", "spec", "to", "properly"}
)


def readings_said(text: str) -> tuple[str, ...]:
    """The readings (slugs, in measuring order) that work of these words takes; mostly none."""
    return in_measuring_order(_READINGS.said(text))


def only_reads(text: str) -> bool:
    """Whether the words name what is measured and nothing else: neither when, nor where on the car, nor other work."""
    return bool(_READINGS.said(text)) and _SAYS_NO_MORE.issuperset(_READINGS.unheard(text).split())


def beside_readings(text: str) -> str:
    """The words of the text that name no reading."""
    return _READINGS.unheard(text)
