"""What running changes about a car."""

# Readings that change by driving alone: nuts and jam nuts settle, tyres warm and leak, oil is used,
# bearings wear, belts stretch. Common practice, no source.
RUNNING_CHANGES: frozenset[str] = frozenset(
    {
        *("wheel_torque", "joint_torque", "jam_nuts", "bearing_play", "tyre_pressures"),
        *("fluid_levels", "leak_check", "belt_check"),
    }
)
