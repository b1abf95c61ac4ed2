"""What must be written beside a reading before another can be compared with it."""

from collections.abc import Collection

from builds.readings.engine.fields import FIGURE, fields_of

CONDITIONS: dict[str, str] = {
    "instrument": "instrument",
    "fuel": "fuel aboard",
    "driver": "driver or ballast",
    "pressures": "tyre pressures",
    "floor": "floor",
    "bars": "anti-roll bars",
}
_LOADED = ("instrument", "fuel", "driver", "pressures", "floor")
_NEEDS = {
    **dict.fromkeys(("ride_height", "camber", "caster", "toe_front", "toe_rear"), _LOADED),
    **dict.fromkeys(("cg_height", "lock_clearance"), _LOADED),
    "corner_weights": (*_LOADED, "bars"),
}
# Bump steer is read with the springs out, from the ride height that the load sets.
LOADED = frozenset({*_NEEDS, "bump_steer"})


def conditions_of(kind: str) -> tuple[str, ...]:
    """The conditions (slugs) that a kind of reading (slug) must carry besides person and date.

    What stands on its wheels depends on fuel, driver, pressures and floor; corner weights on the
    bars too; any other figure on its instrument; a check on nothing. Source: every measurement
    carries instrument, date, person, fuel, driver and pressures, and weighing is done with the
    bars unhooked; common practice, no source.
    """
    if kind in _NEEDS:
        return _NEEDS[kind]
    return ("instrument",) if any(field.type == FIGURE for field in fields_of(kind)) else ()


def lacking(needed: Collection[str], given: Collection[str]) -> tuple[str, ...]:
    """The needed conditions (slugs) that a reading lacks; with any lacking it is only a note."""
    return tuple(slug for slug in needed if slug not in given)


def lacking_words(slugs: Collection[str]) -> str:
    """`Not written down: floor, fuel aboard.`; nothing when none is lacking."""
    words = ", ".join(CONDITIONS[slug] for slug in CONDITIONS if slug in slugs)
    return f"Not written down: {words}." if words else ""


def wants_wheels(conditions: Collection[str]) -> bool:
    """Whether the car stands on its wheels for it: what depends on the floor does."""
    return "floor" in conditions


def not_as_raced(kind: str, *, bars: str, driver: str, fuel_ml: int | None) -> tuple[str, ...]:
    """Why figures of that kind (slug) are not those of the car as raced, each in a few words.

    What depends on how the car is loaded is read with its driver or ballast and its fuel aboard (trade rule 1),
    corner weights with its bars unhooked besides; common practice, no source.
    """
    if kind not in LOADED:
        return ()
    hooked = kind == "corner_weights" and bars == "hooked"
    wrong = {"bars connected": hooked, "nobody aboard": driver == "empty", "tank dry": fuel_ml == 0}
    return tuple(words for words, so in wrong.items() if so)
