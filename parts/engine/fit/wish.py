"""What somebody types, read as what a part must fit, and the plain words that are left."""

import re
from dataclasses import dataclass

from parts.engine.fit.designation import parse
from parts.engine.fit.interface import Electrical, Hub, Interface, Threaded, Wheel
from parts.engine.fit.numbers import FitError, number, tidy
from parts.engine.fit.pattern import SPELLING, parse_pattern
from parts.engine.fit.strength import BOLTS, NUTS
from parts.engine.fit.thread import EXTERNAL, INTERNAL

SIZE = r"([0-9]{2,3}(?:\.[0-9]{1,3})?)"
TAIL = (
    r"(?:[- ](?:UNJ?(?:C|F|EF|S)?|[123][ABab]|[3-9][a-hA-H](?:[3-9][a-hA-H])?"
    r"(?:/[3-9][a-hA-H](?:[3-9][a-hA-H])?)?|LH|lh|left[- ]hand(?:ed)?|[SNL])(?![\w/]))*"
)
METRIC = re.compile(
    rf"(?<![\w.])[Mm][0-9]{{1,3}}(?:\.[0-9]+)?(?:\s?[xX]\s?[0-9]\S*?|-[0-9](?:\.[0-9]+)?)?{TAIL}"
    r"(?=[\s,;)xX]|$)"
)
UNIFIED = re.compile(
    rf"(?<![\w./-])(?:#[0-9]{{1,2}}-[0-9]{{2}}|[1-6]\"-[0-9]{{1,2}}|"
    rf"(?:[0-9][ -])?[0-9]{{1,2}}/(?:2|4|8|16|32|64)\"?"
    rf"(?:-[0-9]{{1,2}}(?![0-9/.])|(?= UN)))"
    rf"{TAIL}(?=[\s,;)]|$)"
)
PATTERN = re.compile(rf"(?<![\w.])(?:{SPELLING.pattern})(?![\w.])(?! ?(?:deg|°))")
BORE = re.compile(rf"\b(?:centre |center )?bore\s*(?:>=|≥|>|at least|of)?\s*{SIZE}(?:\s?mm)?\b", re.I)
SPIGOT = re.compile(rf"\bspigot\s*(?:<=|≤|<|at most|of)?\s*{SIZE}(?:\s?mm)?\b", re.I)
VOLTS = re.compile(r"(?<![\w.])([0-9]{1,3}(?:\.[0-9]+)?)\s?[Vv](?:olts?)?\b")
NUT = re.compile(r"\bnuts?\b|\btapped\b", re.I)
BOLT = re.compile(r"\b(?:bolts?|studs?|screws?)\b", re.I)
SEATS = (
    (re.compile(r"\b(?:60 ?° ?)?(?:cone|conical|tapered)\b(?: seats?)?", re.I), "cone60"),
    (re.compile(r"\b(?:ball R12|R12 seats?)\b", re.I), "r12"),
    (re.compile(r"\b(?:ball R13|R13 seats?)\b", re.I), "r13"),
    (re.compile(r"\b(?:ball R14|R14 seats?)\b", re.I), "r14"),
    (re.compile(r"\bflat seats?\b", re.I), "flat"),
)
STRENGTH = re.compile(
    rf"(?<![\w.,])(?:class\s*)?({'|'.join(re.escape(stamp) for stamp in BOLTS)})(?![\w.,]\w)(?!\w)"
    rf"|\bclass\s*({'|'.join(NUTS)})(?![\w.,]\w)(?!\w)",
    re.I,
)
HUB = re.compile(r"\bhubs?\b", re.I)
WHEEL = re.compile(r"\b(?:wheels?|rims?)\b", re.I)


@dataclass(frozen=True, slots=True)
class Wish:
    """`wants` what a part must fit; `rest` the words besides, in the order typed."""

    wants: tuple[Interface, ...]
    rest: str


def wish(text: str) -> Wish:
    """`M12×1.25 nuts`, `5×112, bore ≥ 66.6`, `1/2-20 UNF stud`, `12 V relay`: read, never guessed.

    What looks like a size and cannot be read stays among the words, as does all of a text longer
    than 80 characters; no text is an error.
    """
    try:
        left = tidy(text)
    except FitError:
        return Wish((), text)
    seat, left = _seat(left)
    thread, left = _thread(left, seat)
    wheel, left = _wheel(left, seat)
    volts, left = _volts(left)
    wants = tuple(want for want in (thread, wheel, volts) if want)
    if not wants:
        return Wish((), text)
    return Wish(wants, " ".join(re.sub(r"(?<!\w)[,;]+|[,;]+(?!\w)", " ", left).split()))


def _cut(sign: re.Pattern[str], text: str) -> tuple[re.Match[str] | None, str]:
    """What the sign finds first, and the text without it."""
    match = sign.search(text)
    return match, f"{text[: match.start()]} {text[match.end() :]}" if match else text


def _seat(text: str) -> tuple[str, str]:
    for sign, seat in SEATS:
        match, left = _cut(sign, text)
        if match:
            return seat, left
    return "", text


def _thread(text: str, seat: str) -> tuple[Threaded | None, str]:
    for sign in (METRIC, UNIFIED):
        match, left = _cut(sign, text)
        if match:
            try:
                thread = parse(match[0])
            except FitError:
                continue
            stamped, left = _cut(STRENGTH, left)
            strength = (stamped[1] or stamped[2]) if stamped else ""
            for words, side in ((NUT, INTERNAL), (BOLT, EXTERNAL)):
                said, without = _cut(words, left)
                if said and thread.side in ("", side):
                    return Threaded(thread.on(side), seat, strength), without
            return Threaded(thread, seat, strength), left
    return None, text


def _wheel(text: str, seat: str) -> tuple[Wheel | Hub | None, str]:
    """A wheel, or a hub when it says so."""
    match, left = _cut(PATTERN, text)
    if not match:
        return None, text
    try:
        pattern = parse_pattern(match[0])
    except FitError:
        return None, text
    bore, left = _cut(BORE, left)
    spigot, left = _cut(SPIGOT, left)
    hub, left = _cut(HUB, left)
    _, left = _cut(WHEEL, left)
    if bore is None and (spigot or hub):
        return Hub(pattern, number(spigot[1]) if spigot else None, seat), left
    return Wheel(pattern, number(bore[1]) if bore else None, seat), left


def _volts(text: str) -> tuple[Electrical | None, str]:
    match, left = _cut(VOLTS, text)
    return (Electrical(number(match[1])), left) if match and float(match[1]) > 0 else (None, text)
