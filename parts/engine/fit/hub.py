"""A wheel on a hub: the pattern, the bore over the spigot, the seat of its nuts."""

from fractions import Fraction

from parts.engine.fit.interface import SEATS, Hub, Wheel
from parts.engine.fit.numbers import plain
from parts.engine.fit.pattern import Pattern, chord
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN, FitVerdict

# mm on the diameter up to which a bore sits on its spigot. Common practice, no source.
SNUG = Fraction(1, 10)
# mm on the diameter up to which a spigot ring is offered: a wall of 5 mm. Common practice, no source.
RING = Fraction(10)
# mm of chord below which a wheel may be forced on: the largest gap of neighbouring patterns that a
# tape cannot tell. Common practice, no source.
TAPE = 2.0


def pattern_verdict(one: Pattern, other: Pattern) -> FitVerdict:
    """Equal or not; when only the circle differs, by how much a tape would have to tell."""
    if one == other:
        return FitVerdict(FITS, f"The pattern is {one}.")
    said = f"{one} is not {other}"
    if one.studs != other.studs:
        return FitVerdict(DOES_NOT, f"{said}.")
    apart = abs(chord(float(one.pcd), one.studs) - chord(float(other.pcd), other.studs))
    return FitVerdict(
        DOES_NOT,
        f"{said}: neighbouring studs differ by {plain(apart, 3)} mm, centre to centre. A wheel "
        "that is a little out still bolts on, and fails later: measure with callipers.",
        trap=apart < TAPE,
    )


def bore_verdict(bore: Fraction | None, spigot: Fraction | None) -> FitVerdict:
    """The wheel's bore over the hub's spigot, mm; None is not measured."""
    if bore is None or spigot is None:
        lacking = "bore of the wheel" if bore is None else "spigot of the hub"
        return FitVerdict(NOT_KNOWN, f"The {lacking} is not written down.")
    said = f"bore {plain(bore)} mm, spigot {plain(spigot)} mm"
    if bore < spigot:
        return FitVerdict(DOES_NOT, f"It does not go over the spigot: {said}.")
    if bore - spigot <= SNUG:
        return FitVerdict(FITS, f"It sits on the spigot: {said}.")
    if bore - spigot > RING:
        return FitVerdict(DOES_NOT, f"It hangs loose about the spigot, too far for a ring: {said}.", trap=True)
    ring = f"{plain(bore)} to {plain(spigot)} mm"
    return FitVerdict(FITS, f"It goes over the spigot, with a spigot ring {ring}.")


def seat_verdict(one: str, other: str) -> FitVerdict:
    """The seat of the nuts against that of the wheel; "" is not written down."""
    if not one or not other:
        return FitVerdict(NOT_KNOWN, "The seat of its nuts is not written down.")
    if one != other:
        return FitVerdict(DOES_NOT, f"The seats differ: {SEATS[one]} and {SEATS[other]}.")
    return FitVerdict(FITS, f"The seat is {SEATS[one]}.")


def worst(verdicts: list[FitVerdict]) -> FitVerdict:
    """The one that counts, with the sentences of all that say the same."""
    rank = max(verdict.rank for verdict in verdicts)
    same = [verdict for verdict in verdicts if verdict.rank == rank]
    return FitVerdict(
        same[0].state,
        " ".join(verdict.because for verdict in same if verdict.because),
        any(verdict.trap for verdict in same),
        all(verdict.unasked for verdict in same),
    )


def wheel_on_hub(hub: Hub, wheel: Wheel) -> FitVerdict:
    """Pattern, bore and seat, all of which must be known. Source: common practice.

    Caliper clearance, stud length and a spacer thicker than the spigot are other questions.
    """
    return worst(
        [
            pattern_verdict(wheel.pattern, hub.pattern),
            bore_verdict(wheel.bore, hub.spigot),
            seat_verdict(wheel.seat, hub.seat),
        ]
    )
