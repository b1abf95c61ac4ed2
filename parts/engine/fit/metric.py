"""Metric designations: M12, M12×1.25, M12x1,25-LH-6g, M12-1.25, M20×2 5g6g-L."""

import re
from fractions import Fraction

from parts.engine.fit.numbers import FitError, number, plain
from parts.engine.fit.thread import EXTERNAL, INTERNAL, METRIC, Thread

# Coarse pitches in mm by diameter. Source: ISO 261; those above M16 from memory.
COARSE_ROWS = """1.6 0.35;1.8 0.35;2 0.4;2.2 0.45;2.5 0.45;3 0.5;3.5 0.6;4 0.7;4.5 0.75;5 0.8
6 1;7 1;8 1.25;9 1.25;10 1.5;11 1.5;12 1.75;14 2;16 2;18 2.5;20 2.5;22 2.5;24 3;27 3
30 3.5;33 3.5;36 4"""
COARSE = {Fraction(size): Fraction(pitch) for size, pitch in (pair.split() for pair in re.split("[;\n]", COARSE_ROWS))}
HEAD = re.compile(r"[Mm]\s?([0-9]{1,3}(?:\.[0-9]{1,3})?)(?:\s?[xX]\s?([0-9]{1,2}(?:\.[0-9]{1,3})?))?")
PITCH = re.compile(r"[0-9]{1,2}(?:\.[0-9]{1,3})?")
CLASS = r"[3-9][a-hA-H](?:[3-9][a-hA-H])?"
TOLERANCE = re.compile(rf"({CLASS})(?:/({CLASS}))?")
LEFT, RIGHT, HAND = {"lh", "left"}, {"rh", "right"}, {"hand", "handed"}


def parse_metric(text: str) -> Thread:
    """The thread of a designation that was tidied; FitError says what cannot be read.

    Form `M<d>[x<P>][-LH][-<tolerance>]`, parts in any order after the pitch. Source: ISO 965-1.
    """
    head = HEAD.match(text)
    if head is None:
        raise FitError(f"“{text}” is no metric thread: write one such as M12×1.25.")
    diameter, pitch = number(head[1]), number(head[2]) if head[2] else None
    tokens = [token for token in re.split(r"[-\s]+", text[head.end() :]) if token]
    if pitch is None and tokens and PITCH.fullmatch(tokens[0]):
        pitch = number(tokens.pop(0))
    said: dict[str, str] = {}
    for token in tokens:
        name, value = _token(token, text)
        if said.setdefault(name, value) != value:
            raise FitError(f"“{text}” says two different things with {said[name]} and {value}.")
    tolerance, side = _tolerance(said.get("tolerance", ""))
    return Thread(
        METRIC,
        diameter,
        _pitch(diameter, pitch),
        left=said.get("hand") == "left",
        side=side,
        tolerance=tolerance,
        length=said.get("length", ""),
    )


def _pitch(diameter: Fraction, pitch: Fraction | None) -> Fraction:
    size = f"M{plain(diameter)}"
    if not 1 <= diameter <= 300:
        raise FitError(f"{size} is no thread of a car: diameters go from M1 to M300.")
    if pitch is None:
        if diameter not in COARSE:
            raise FitError(f"{size} has no coarse pitch: write it, such as {size}×1.5.")
        return COARSE[diameter]
    if not Fraction(1, 5) <= pitch <= 8 or pitch * 2 > diameter:
        raise FitError(f"A pitch of {plain(pitch)} mm does not go with {size}.")
    return pitch


def _token(token: str, text: str) -> tuple[str, str]:
    low = token.lower().replace(".", "")
    if low in LEFT or low in RIGHT:
        return "hand", "left" if low in LEFT else "right"
    if low in HAND:
        return "hand word", "hand"
    if TOLERANCE.fullmatch(token):
        return "tolerance", token
    if token in ("S", "N", "L"):
        return "length", token
    if low.startswith("ph"):
        raise FitError("A thread with more than one start is not compared here.")
    raise FitError(f"“{token}” in “{text}” is neither a pitch, LH nor a tolerance such as 6g or 6H.")


def _tolerance(text: str) -> tuple[str, str]:
    """As it is kept, and the side it tells: 6g a bolt, 6H a nut, 6H/6g neither."""
    if not text:
        return "", ""
    classes = [_single(part) for part in text.split("/")]
    sides = [_side(part, text) for part in classes]
    if len(sides) == 1:
        return classes[0], sides[0]
    if sides[0] == sides[1]:
        raise FitError(f"{text} names one side twice: a pair is written 6H/6g.")
    if sides[0] == EXTERNAL:
        classes.reverse()
    return "/".join(classes), ""


def _single(text: str) -> str:
    return text[:2] if text[:2] == text[2:] else text


def _side(text: str, whole: str) -> str:
    letters = text[1::2]
    if letters.islower():
        return EXTERNAL
    if letters.isupper():
        return INTERNAL
    raise FitError(f"{whole} mixes bolt and nut: small letters are a bolt's, capitals a nut's.")
