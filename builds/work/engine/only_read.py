"""Which work only reads a car, and what it undoes for that."""

from collections.abc import Collection

# Readings that are taken by looking, with nothing undone for them; not so weighing (the bars), bump steer (the
# springs), torques and bleeding. Common practice, no source.
LOOKED_AT = frozenset(
    {
        *("tyre_pressures", "ride_height", "camber", "caster", "toe_front", "toe_rear", "track_width", "scrub_radius"),
        *("lock_angles", "ackermann", "lock_clearance", "toggle_check", "hose_check", "routing"),
        *("fluid_levels", "leak_check", "belt_life", "helmet_life", "extinguisher"),
    }
)
# The bars are unhooked for it, and nothing else.
WEIGHED = "corner_weights"
BARS = frozenset({"bar_preload"})


def only_looks(recipe: str, kinds: Collection[str], measures: Collection[str]) -> bool:
    """Whether it reads the car and undoes nothing; only a recipe says of its work that it is all there is to it."""
    return bool(recipe and measures) and not kinds and LOOKED_AT.issuperset(measures)


def touched_by(
    recipe: str, systems: Collection[str], kinds: Collection[str], measures: Collection[str]
) -> tuple[frozenset[str], frozenset[str]]:
    """The systems and the kinds of work (slugs) that such work has touched: of what only reads nothing but the bars."""
    looked = [slug for slug in measures if slug != WEIGHED]
    if recipe and measures and not kinds and LOOKED_AT.issuperset(looked):
        return frozenset(), BARS if WEIGHED in measures else frozenset()
    return frozenset(systems), frozenset(kinds)
