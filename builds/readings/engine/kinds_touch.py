"""The systems that each kind of work opens or changes, whatever was ticked on its job."""

from collections.abc import Iterable
from functools import lru_cache

from builds.readings.engine.kinds_of_work import KINDS
from garage.engine.vocabulary import known

# Only what somebody gets hurt by: a wheel, a belt, a line or a joint that was open. Common practice, no source.
_OPENED_ON: dict[str, str] = {
    "steering": "steering_arm rack_spacer rack_moved jam_nut lock_stop steering_column",
    "steering suspension": "joint_opened pin_out length_adjusted",
    "steering suspension cage": "part_weld",
    "suspension": (
        "spring_change bar_preload camber_front front_trim rear_link rear_trim caster bushing_or_mount chassis_weld"
    ),
    "brakes": "hydraulics_opened brake_vacuum friction_parts",
    "wheels": "wheel_off wheels_on wheel_or_spacer hub_opened",
    "restraint": "seat_or_belt_moved",
    "seat": "seat_work",
    "fuel": "fuel_drained fuel_line",
    "fire": "extinguisher_used",
}
TOUCHED_BY: dict[str, tuple[str, ...]] = {
    kind: tuple(systems.split()) for systems, kinds in _OPENED_ON.items() for kind in kinds.split()
}


def touched(systems: Iterable[str], kinds: Iterable[str]) -> tuple[str, ...]:
    """What a job touches (slugs): the systems said, and those that its kinds of work (slugs) bring.

    A kind that may be on one of several, such as a joint of steering or suspension, brings all of
    them where none is said. ValueError for an unknown kind.
    """
    return _touched(tuple(dict.fromkeys(systems)), frozenset(kinds))


@lru_cache(maxsize=4096)
def _touched(said: tuple[str, ...], kinds: frozenset[str]) -> tuple[str, ...]:
    done = known(kinds, KINDS, "kind of work")
    brought = [TOUCHED_BY[kind] for kind in KINDS if kind in done and kind in TOUCHED_BY]
    return tuple(dict.fromkeys([*said, *(slug for group in brought if not {*said} & {*group} for slug in group)]))
