"""Whether a job in somebody's own words is one that the car has already: asked, and never taken for it by itself."""

from dataclasses import dataclass

from builds.readings.engine.car_job import NO_WORK
from builds.readings.engine.corners_said import are_apart, corner_said
from builds.readings.engine.fits_said import comes_out_said
from builds.readings.engine.readings_said import only_reads
from garage.engine.names_said import plain
from garage.engine.opens_nothing_said import opens_nothing_said

# Words that say how or where, and not what.
_NO_THINGS = frozenset(
    {
        *("a", "an", "all", "again", "and", "at", "both", "by", "for", "hand", "in", "it", "of", "off", "old", "on"),
        *("out", "over", "set", "to", "up", "down", "with", "new", "fit", "refit", "take", "swap", "change", "replace"),
        *(
            "brake",
            "fuel",
            "coolant",
            "paint",
            "front",
            "rear",
            "left",
            "right",
            "side",
            "check",
            "measure",
            "clean",
            "job",
            "do",
            "back",
            "after",
            "before",
        ),
    }
)


@dataclass(frozen=True, slots=True)
class TypedWork:
    """A job as far as it may be the same work as another: its title, kinds of work and readings (slugs)."""

    title: str
    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


def alike(typed: TypedWork, other: TypedWork) -> int:
    """How many things both name, where the other does all that was typed, the same way and at the same corner; else 0.

    What is only measured is so by whatever takes that reading; a wheel comes off for either. Common practice.
    """
    both = _things(typed.title) & _things(other.title)
    if not both or are_apart(corner_said(typed.title), corner_said(other.title)):
        return 0
    if only_reads(typed.title):
        return len(both) if {*typed.measures} <= {*other.measures} else 0
    if opens_nothing_said(typed.title):
        return 0
    works = {*typed.kinds} - NO_WORK or {*typed.kinds}
    besides = {"wheel_off", "mass_unit_moved"} - ({"wheel_off"} if works == {"wheel_off"} else set())
    does_all = bool(works) and works - besides <= {*other.kinds} and {*typed.measures} <= {*other.measures}
    same_way = comes_out_said(typed.title) == comes_out_said(other.title)
    return len(both) if does_all and same_way else 0


def _things(title: str) -> set[str]:
    return {word.removesuffix("s") for word in plain(title).split() if not word.isdigit()} - _NO_THINGS
