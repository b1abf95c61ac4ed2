"""The readings of a car, in the order they are taken, and which rests on which."""

from collections.abc import Iterable
from dataclasses import dataclass

from garage.engine.vocabulary import by_slug, known


@dataclass(frozen=True, slots=True)
class Reading:
    """A measurement or check that can go void, and the readings that it rests on."""

    slug: str
    label: str
    rests_on: tuple[str, ...] = ()


# In measuring order: nothing here rests on a reading that stands below it.
READINGS: dict[str, Reading] = by_slug(
    [
        Reading("brake_bleed", "Brake bleed and leak check"),
        Reading("pedal_travel", "Brake pedal travel"),
        Reading("brake_bias", "Brake bias"),
        Reading("pad_bedding", "Pads and discs bedded in"),
        Reading("hose_check", "Brake hoses free at lock and droop"),
        Reading("bearing_play", "Wheel bearing play"),
        Reading("wheel_speed_gap", "Wheel-speed sensor gap"),
        Reading("wheel_run_out", "Wheel run-out"),
        Reading("thread_engagement", "Thread engagement"),
        Reading("joint_pins", "Split pins in and signed"),
        Reading("track_width", "Track width"),
        Reading("scrub_radius", "Scrub radius"),
        Reading("ballast_position", "Driver ballast position"),
        Reading("tyre_pressures", "Tyre pressures"),
        Reading("ride_height", "Ride height"),
        Reading("bump_steer", "Bump steer"),
        Reading("corner_weights", "Corner weights", ("ride_height",)),
        Reading("cg_height", "Centre-of-gravity height"),
        Reading("camber", "Camber", ("corner_weights",)),
        Reading("caster", "Caster", ("corner_weights",)),
        Reading("toe_rear", "Rear toe and thrust angle", ("camber", "caster")),
        Reading("toe_front", "Front toe", ("camber", "caster", "toe_rear")),
        Reading("jam_nuts", "Jam nuts tight and striped"),
        Reading("joint_torque", "Joint torque and stripes"),
        Reading("wheel_torque", "Wheel torque"),
        Reading("lock_angles", "Lock angles each way"),
        Reading("ackermann", "Ackermann"),
        Reading("lock_clearance", "Tyre clearance at full lock"),
        Reading("toggle_check", "Over-centre check at full lock"),
        Reading("belt_geometry", "Belt angles and routing"),
        Reading("belt_torque", "Belt bolt torque"),
        Reading("belt_life", "Belts sound and in date"),
        Reading("belt_check", "Belts tight and latching"),
        Reading("helmet_life", "Helmet sound and in date"),
        Reading("extinguisher", "Extinguisher full and in date"),
        Reading("earths", "Earths and voltage drop"),
        Reading("master_switch", "Master switch stops the engine"),
        Reading("fuel_leak", "Fuel leak test"),
        Reading("coolant_bleed", "Coolant bled, level after a heat cycle"),
        Reading("fan_switch", "Fan switches on and off"),
        Reading("throttle_return", "Throttle returns by itself"),
        Reading("routing", "Wiring and hoses clear of what moves"),
        Reading("fluid_levels", "Fluid levels"),
        Reading("leak_check", "No leak anywhere, hot"),
        Reading("printed_checklist", "Printed checklist"),
    ]
)


def in_measuring_order(readings: Iterable[str]) -> tuple[str, ...]:
    """Readings (slugs) in the order in which they are taken: what others rest on comes first."""
    wanted = known(readings, READINGS, "reading")
    return tuple(slug for slug in READINGS if slug in wanted)


def resting_on(readings: Iterable[str]) -> frozenset[str]:
    """These readings (slugs) and every reading that rests on one of them, however far up.

    Source: ride height, then corner weights, then camber and caster, then toe; rear toe before
    front toe; common practice, no source.
    """
    void = set(known(readings, READINGS, "reading"))
    for slug, reading in READINGS.items():  # one pass is enough: the table is in measuring order
        if not void.isdisjoint(reading.rests_on):
            void.add(slug)
    return frozenset(void)
