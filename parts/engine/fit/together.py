"""Two threads: together only when all agree; else what would happen, from their geometry."""

from dataclasses import dataclass

from parts.engine.fit.numbers import plain
from parts.engine.fit.thread import EXTERNAL, INTERNAL, Thread
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN, FitVerdict

SPINS_ON, CROSS_THREADS, BINDS = "spins_on", "cross_threads", "binds"
WILL_NOT_START, DROPS_THROUGH, OTHER_HAND = "will_not_start", "drops_through", "other_hand"

# What begins as if it fitted.
TRAPS = frozenset({SPINS_ON, CROSS_THREADS, BINDS})


@dataclass(frozen=True, slots=True)
class Miss:
    """What a bolt does in a nut of another thread. Differences are the bolt's less the nut's, mm.

    `overlap` is the share of the nut's thread depth that the bolt reaches, in percent. `turns` is
    after how many turns the pitches have drifted apart by a quarter of the nut's, None if never.
    """

    kind: str
    diameter: float
    pitch: float
    overlap: float
    turns: float | None
    sentence: str


def together(one: Thread, other: Thread) -> FitVerdict:
    """Whether they go together; the order of the two does not matter. Never "close enough".

    They do when system, diameter, pitch and hand are equal and one is external, one internal.
    Source: the trade's own rule for threaded fasteners, common practice.
    """
    if one.form != other.form:
        missed = miss(*_as_bolt_and_nut(one, other))
        return FitVerdict(DOES_NOT, missed.sentence, missed.kind in TRAPS)
    if one.side == other.side and one.side:
        both = "bolts" if one.side == EXTERNAL else "nuts"
        return FitVerdict(DOES_NOT, f"Both are {both}, {one.size}.")
    if not one.side or not other.side:
        return FitVerdict(NOT_KNOWN, f"Both are {one.size}, but which is bolt and which nut is unsaid.")
    hand = ", left-hand" if one.left else ""
    return FitVerdict(FITS, f"Bolt and nut are both {one.size}{hand}.")


def _as_bolt_and_nut(one: Thread, other: Thread) -> tuple[Thread, Thread]:
    """By their sides; where those do not tell, the thinner is the bolt."""
    if EXTERNAL in (one.side, other.side) and one.side != other.side:
        return (one, other) if one.side == EXTERNAL else (other, one)
    if INTERNAL in (one.side, other.side) and one.side != other.side:
        return (other, one) if one.side == INTERNAL else (one, other)
    first, second = sorted((one, other), key=lambda thread: thread.form)
    return (first, second) if first.diameter <= second.diameter else (second, first)


def miss(bolt: Thread, nut: Thread) -> Miss:
    """What happens when this bolt is turned into a nut of another thread.

    From the 60° basic profile without tolerances: the bolt's crest enters up to the sharp root of
    the nut (D + H/4), reaches (d - D1)/(D - D1) of its depth, and pitches that differ run apart
    by their difference each turn; a quarter pitch jams. Judged over an engagement of one diameter.
    ValueError when they are the same thread. Source: own reckoning on ISO 68-1 geometry.
    """
    if bolt.form == nut.form:
        raise ValueError(f"{bolt.size} in {nut.size} is no miss.")
    thicker, pitch = float(bolt.diameter - nut.diameter), float(bolt.pitch - nut.pitch)
    depth = float(nut.diameter) - nut.minor
    overlap = 100 * max(0.0, min(1.0, (float(bolt.diameter) - nut.minor) / depth))
    turns = float(nut.pitch) / 4 / abs(pitch) if pitch else None
    kind = _kind(bolt, nut, thicker, overlap, turns)
    said = f"{bolt} in {nut} {_words(kind, bolt, nut, overlap, turns)}"
    return Miss(kind, thicker, pitch, overlap, turns, said)


def _kind(bolt: Thread, nut: Thread, thicker: float, overlap: float, turns: float | None) -> str:
    if thicker > nut.height / 4:
        return WILL_NOT_START
    if overlap == 0:
        return DROPS_THROUGH
    if bolt.left != nut.left:
        return OTHER_HAND
    one_diameter = float(bolt.diameter / nut.pitch)
    if thicker > 0:
        return BINDS
    if turns is not None and turns < one_diameter:
        return CROSS_THREADS
    return SPINS_ON


def _words(kind: str, bolt: Thread, nut: Thread, overlap: float, turns: float | None) -> str:
    if kind == WILL_NOT_START:
        return f"will not start: it is {plain(bolt.diameter - nut.diameter, 3)} mm too thick."
    if kind == DROPS_THROUGH:
        return "drops through: no thread holds it."
    if kind == OTHER_HAND:
        left = bolt if bolt.left else nut
        return f"will not start: {left} is left-hand, the other right-hand."
    if kind == CROSS_THREADS:
        return (
            f"starts, then cross-threads: the pitches drift {plain(abs(bolt.pitch - nut.pitch), 3)}"
            f" mm a turn, a quarter pitch in {plain(turns or 0, 1)} turns."
        )
    if kind == BINDS:
        many = int(turns) if turns is not None else 0
        when = f"after {many} turn{'' if many == 1 else 's'}" if many else "from the first turn"
        return f"binds {when}: forced on, it tears the thread."
    if overlap > 99:
        drift = plain(abs(bolt.pitch - nut.pitch), 3)
        return f"goes on by hand, but the pitches drift {drift} mm a turn: few turns carry the load."
    return (
        f"spins on with only {overlap:.0f} % of the thread overlapping: it feels right by hand and strips under load."
    )
