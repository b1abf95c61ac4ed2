"""The readings of a car, in the order they are taken, and which rests on which."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from garage.engine.vocabulary import by_slug, known


@dataclass(frozen=True, slots=True)
class Measurement:
    """A measurement or check that can go void, and the readings that it rests on."""

    slug: str
    label: str
    rests_on: tuple[str, ...] = ()


# In measuring order: nothing here rests on a reading that stands below it.
READINGS: dict[str, Measurement] = by_slug(
    [
        Measurement("brake_bleed", "Brake bleed and leak check"),
        Measurement("pedal_travel", "Brake pedal travel"),
        Measurement("brake_bias", "Brake bias"),
        Measurement("pad_bedding", "Pads and discs bedded in"),
        Measurement("hose_check", "Brake hoses free at lock and droop"),
        Measurement("bearing_play", "Wheel bearing play"),
        Measurement("wheel_speed_gap", "Wheel-speed sensor gap"),
        Measurement("wheel_run_out", "Wheel run-out"),
        Measurement("thread_engagement", "Thread engagement"),
        Measurement("joint_pins", "Split pins in and signed"),
        Measurement("track_width", "Track width"),
        Measurement("scrub_radius", "Scrub radius"),
        Measurement("driver_fit", "Driver fit"),
        Measurement("ballast_position", "Driver ballast position"),
        Measurement("tyre_pressures", "Tyre pressures"),
        Measurement("ride_height", "Ride height"),
        Measurement("bump_steer", "Bump steer"),
        Measurement("corner_weights", "Corner weights", ("ride_height",)),
        Measurement("cg_height", "Centre-of-gravity height"),
        Measurement("camber", "Camber", ("corner_weights",)),
        Measurement("caster", "Caster", ("corner_weights",)),
        Measurement("toe_rear", "Rear toe and thrust angle", ("camber", "caster")),
        Measurement("toe_front", "Front toe", ("camber", "caster", "toe_rear")),
        Measurement("jam_nuts", "Jam nuts tight and striped"),
        Measurement("joint_torque", "Joint torque and stripes"),
        Measurement("wheel_torque", "Wheel torque"),
        Measurement("lock_angles", "Lock angles each way"),
        Measurement("ackermann", "Ackermann"),
        Measurement("lock_clearance", "Tyre clearance at full lock"),
        Measurement("toggle_check", "Over-centre check at full lock"),
        Measurement("belt_geometry", "Belt angles and routing"),
        Measurement("belt_torque", "Belt bolt torque"),
        Measurement("belt_life", "Belts sound and in date"),
        Measurement("belt_check", "Belts tight and latching"),
        Measurement("helmet_life", "Helmet sound and in date"),
        Measurement("extinguisher", "Extinguisher full and in date"),
        Measurement("earths", "Earths and voltage drop"),
        Measurement("master_switch", "Master switch stops the engine"),
        Measurement("fuel_leak", "Fuel leak test"),
        Measurement("coolant_bleed", "Coolant bled, level after a heat cycle"),
        Measurement("fan_switch", "Fan switches on and off"),
        Measurement("throttle_return", "Throttle returns by itself"),
        Measurement("routing", "Wiring and hoses clear of what moves"),
        Measurement("fluid_levels", "Fluid levels"),
        Measurement("leak_check", "No leak anywhere, hot"),
        Measurement("printed_checklist", "Printed checklist"),
    ]
)


def in_measuring_order(readings: Iterable[str]) -> tuple[str, ...]:
    """Readings (slugs) in the order in which they are taken: what others rest on comes first."""
    wanted = known(readings, READINGS, "reading")
    return tuple(slug for slug in READINGS if slug in wanted)


def with_bases(readings: Iterable[str]) -> frozenset[str]:
    """These readings (slugs) and every reading that one of them rests on, however far down."""
    needed = set(readings)
    for slug in reversed(READINGS):  # one pass is enough: the table is in measuring order
        if slug in needed:
            needed.update(READINGS[slug].rests_on)
    return frozenset(needed)


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


class NamedKind(Protocol):
    """A kind of reading; `own` when a garage made it up."""

    @property
    def label(self) -> str: ...
    @property
    def own(self) -> object: ...


def names_of(kinds: Iterable[NamedKind]) -> str:
    """`camber, front toe`: in small letters, the garage's own names as they are written."""
    return ", ".join(kind.label if kind.own else kind.label[0].lower() + kind.label[1:] for kind in kinds)
