"""Rims: backspace and offset, and what moves where when a wheel or a spacer is changed."""

from dataclasses import dataclass

INCH_MM = 25.4
# Both flanges of a rim together, in inches. Common practice, and makers disagree: measure it.
FLANGES = 1.0


@dataclass(frozen=True, slots=True)
class Rim:
    """`width` nominal in inches, `offset` ET in mm, + when the hub face is outboard of centre."""

    width: float
    offset: float


@dataclass(frozen=True, slots=True)
class Shift:
    """mm: `outer` face outward, `inner` face inward (below 0 gains clearance), `track` of both."""

    outer: float
    inner: float
    track: float


def overall_width(nominal: float) -> float:
    """mm over the flanges of a rim of so many inches; an estimate, the real one is measured."""
    return INCH_MM * (nominal + FLANGES)


def backspace(rim: Rim, overall: float | None = None) -> float:
    """mm from the hub face to the inner edge; `overall` is the measured width, mm."""
    return (overall_width(rim.width) if overall is None else overall) / 2 + rim.offset


def offset(measured: float, overall: float) -> float:
    """ET in mm from a backspace and an overall width in mm."""
    return measured - overall / 2


def shift(old: Rim, new: Rim, spacer: float = 0.0) -> Shift:
    """What moves where from the old rim to the new one with a spacer of so many mm.

    A spacer acts as so much less offset. Nominal widths, so that the flanges fall out. Source:
    geometry. Says nothing of caliper clearance.
    """
    wider = INCH_MM * (new.width - old.width) / 2
    out = old.offset - new.offset + spacer
    return Shift(wider + out, wider - out, 2 * out)
