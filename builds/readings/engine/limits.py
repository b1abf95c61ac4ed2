"""Limits of readings: how they are said, which readings must have one, and which are offered."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from builds.readings.engine.fields import Field
from builds.readings.engine.judge import Goal

OFF, LEAST, MOST, BETWEEN = "off", "least", "most", "between"
SORTS = {OFF: "give or take", LEAST: "at least", MOST: "at most", BETWEEN: "between"}
WITH_TWO = (OFF, BETWEEN)

CHOSEN, PRACTICE, MAKER = "chosen", "practice", "maker"
MARKS = {CHOSEN: "our own choice", PRACTICE: "common practice, no source", MAKER: "the maker's figure"}

# Readings of steering, brakes, suspension, wheels and belts whose figures hurt somebody when they
# are wrong: without a limit nothing says that they are right. What only tells how a car is set up
# (weights, track, centre of gravity) may go without. Common practice, no source.
MUST_HAVE_LIMITS: frozenset[str] = frozenset(
    {
        *("pedal_travel", "brake_bias", "bearing_play", "wheel_run_out", "tyre_pressures", "wheel_torque"),
        *("ride_height", "camber", "caster", "toe_rear", "toe_front", "bump_steer"),
        *("lock_angles", "lock_clearance", "belt_geometry"),
    }
)
# What says how a figure was read, and is not itself right or wrong.
HOW_IT_WAS_READ = frozenset({("bump_steer", "travel")})


@dataclass(frozen=True, slots=True)
class OfferedLimit:
    """A limit offered for figures of a kind (stored units; no amount: the garage writes its own).

    `fields` are those that it is for; `second` is how far off, or the upper end.
    """

    kind: str
    fields: tuple[str, ...]
    sort: str
    amount: int | None = None
    second: int | None = None
    mark: str = PRACTICE


_WHEELS = ("fl", "fr", "rl", "rr")
_FRONT, _REAR = _WHEELS[:2], _WHEELS[2:]
_CHANGES = ("left_bump", "left_droop", "right_bump", "right_droop")
_LOCKS = ("left_inner", "left_outer", "right_inner", "right_outer")

# Wide on purpose: they catch what nobody would let out, and the maker's figure comes first. Common
# practice, no source, but shoulder straps not more than 45° down: FIA Appendix J article 253.
OFFERS: tuple[OfferedLimit, ...] = (
    OfferedLimit("pedal_travel", ("travel",), MOST),
    OfferedLimit("brake_bias", ("front",), BETWEEN, 50_000, 80_000),
    OfferedLimit("bearing_play", _WHEELS, MOST, 100),
    OfferedLimit("wheel_run_out", _WHEELS, MOST, 1_000),
    OfferedLimit("tyre_pressures", _WHEELS, BETWEEN, 120_000, 300_000),
    OfferedLimit("ride_height", _WHEELS, LEAST, 40_000),
    OfferedLimit("bump_steer", _CHANGES, OFF, 0, 300),
    OfferedLimit("camber", _WHEELS, BETWEEN, -5_000, 1_000),
    OfferedLimit("caster", _FRONT, BETWEEN, 1_000, 12_000),
    OfferedLimit("toe_rear", _REAR, BETWEEN, -200, 500),
    OfferedLimit("toe_front", _FRONT, BETWEEN, -500, 500),
    OfferedLimit("wheel_torque", _WHEELS, OFF, mark=MAKER),
    OfferedLimit("lock_angles", _LOCKS, MOST, mark=MAKER),
    OfferedLimit("lock_clearance", _WHEELS, LEAST, 10_000),
    OfferedLimit("belt_geometry", ("shoulder",), BETWEEN, 0, 45_000),
    OfferedLimit("belt_geometry", ("lap",), BETWEEN, 40_000, 80_000),
)


def goal(sort: str, amount: int, second: int | None) -> Goal:
    """Where a figure must lie, in the units given. ValueError for a sort that lacks its second figure."""
    if sort == LEAST:
        return Goal(amount, None)
    if sort == MOST:
        return Goal(None, amount)
    if second is None:
        raise ValueError(f"{SORTS[sort]} wants a second figure.")
    return Goal(amount - second, amount + second) if sort == OFF else Goal(amount, second)


def without_limit(kind: str, figures: Iterable[Field], limited: Collection[str]) -> tuple[Field, ...]:
    """The figures of a kind (slug) that must have a limit and are not among those (slugs) that do.

    Of a kind that the garage made itself, which has no slug, only its owner knows what is good: all of them.
    """
    if kind and kind not in MUST_HAVE_LIMITS:
        return ()
    return tuple(field for field in figures if field.slug not in limited and (kind, field.slug) not in HOW_IT_WAS_READ)
