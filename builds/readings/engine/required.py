"""Which readings a car is offered to need before it runs."""

from builds.readings.engine.vocabulary import in_measuring_order

# What a car driven in anger should have on record. Common practice, no source; the owner chooses.
SENSIBLE: tuple[str, ...] = in_measuring_order(
    [
        *("brake_bleed", "bearing_play", "tyre_pressures", "ride_height", "corner_weights"),
        *("camber", "caster", "toe_rear", "toe_front", "wheel_torque", "lock_clearance"),
        *("belt_geometry", "master_switch", "fuel_leak", "throttle_return", "fluid_levels"),
    ]
)
