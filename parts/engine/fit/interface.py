"""A part's interfaces: structured fields by kind, as they are kept, read back, and said."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from parts.engine.fit.designation import parse
from parts.engine.fit.numbers import FitError, number, plain, tidy
from parts.engine.fit.pattern import Pattern, parse_pattern
from parts.engine.fit.strength import strength
from parts.engine.fit.thread import EXTERNAL, INTERNAL, Thread

KINDS = {
    "thread": "Thread",
    "wheel": "Wheel: what goes onto a hub",
    "hub": "Hub: what a wheel goes onto",
    "electrical": "Electrical",
}
SIDES = {EXTERNAL: "bolt, stud", INTERNAL: "nut, tapped hole", "": "not said"}
SEATS = {
    "cone60": "60° cone", "r12": "ball R12", "r13": "ball R13", "r14": "ball R14", "flat": "flat",
}  # fmt: skip
MOST_TEXT = 40
MOST = 12


@dataclass(frozen=True, slots=True)
class Threaded:
    """A thread, its side told by `thread.side`; `seat` for wheel nuts and bolts; `strength` its class."""

    thread: Thread
    seat: str = ""
    strength: str = ""
    kind = "thread"


@dataclass(frozen=True, slots=True)
class Wheel:
    """What goes onto a hub: `bore` in mm, None when nobody measured it."""

    pattern: Pattern
    bore: Fraction | None = None
    seat: str = ""
    kind = "wheel"


@dataclass(frozen=True, slots=True)
class Hub:
    """What a wheel goes onto: `spigot` in mm, None when nobody measured it."""

    pattern: Pattern
    spigot: Fraction | None = None
    seat: str = ""
    kind = "hub"


@dataclass(frozen=True, slots=True)
class Electrical:
    """`volts` such as 12, exact, and a connector in words; either may be unsaid."""

    volts: Fraction | None = None
    connector: str = ""
    kind = "electrical"


Interface = Threaded | Wheel | Hub | Electrical


def read(fields: Mapping[str, Any]) -> Interface:
    """From the fields of one kind, as typed or as kept. FitError with one sentence.

    thread: thread, side, seat, strength. wheel: pattern, bore, seat. hub: pattern, spigot, seat. electrical:
    volts, connector.
    """
    said = {name: str(value).strip() for name, value in fields.items() if value is not None}
    make = READ.get(said.get("kind", ""))
    if make is None:
        raise FitError("Choose what kind of thing it is: thread, wheel, hub or electrical.")
    return make(said)


def read_all(rows: Iterable[Mapping[str, Any]]) -> tuple[Interface, ...]:
    """Those kept with a part or a want; what can no longer be read counts as not written down."""
    interfaces = []
    for kept in rows:
        try:
            interfaces.append(read(kept))
        except FitError:
            continue
    return tuple(interfaces)


def _thread(fields: Mapping[str, str]) -> Threaded:
    thread, side = parse(fields.get("thread", "")), fields.get("side", "")
    if side and side not in SIDES:
        raise FitError("A thread is a bolt's or a nut's.")
    if side and thread.side and side != thread.side:
        raise FitError(f"{thread} is a {SIDES[thread.side].split(',')[0]} by its tolerance.")
    return Threaded(thread.on(side or thread.side), _seat(fields), strength(fields.get("strength", "")))


def _wheel(fields: Mapping[str, str]) -> Wheel:
    return Wheel(
        parse_pattern(fields.get("pattern", "")),
        hole(fields.get("bore", ""), "bore"),
        _seat(fields),
    )


def _hub(fields: Mapping[str, str]) -> Hub:
    return Hub(
        parse_pattern(fields.get("pattern", "")),
        hole(fields.get("spigot", ""), "spigot"),
        _seat(fields),
    )


def _electrical(fields: Mapping[str, str]) -> Electrical:
    connector = " ".join(fields.get("connector", "").split())
    if len(connector) > MOST_TEXT:
        raise FitError(f"A connector is said in {MOST_TEXT} characters.")
    volts = voltage(fields.get("volts", ""))
    if volts is None and not connector:
        raise FitError("Write the voltage, the connector, or both.")
    return Electrical(volts, connector)


def hole(text: str, name: str) -> Fraction | None:
    """mm of a bore or a spigot as typed, None when it is empty; FitError beyond a wheel's sizes."""
    text = tidy(text).removesuffix("mm").strip()
    if not text:
        return None
    size = number(text)
    if not 10 <= size <= 300:
        raise FitError(f"A {name} of {plain(size)} mm is no wheel's: 10 to 300 mm.")
    return size


def voltage(text: str) -> Fraction | None:
    """Volts as typed, None when empty; FitError beyond those of a car."""
    text = tidy(text).rstrip("Vv ")
    volts = number(text) if text else None
    if volts is not None and not 0 < volts <= 1000:
        raise FitError("A voltage is more than 0 and not above 1000 V.")
    return volts


def _seat(fields: Mapping[str, str]) -> str:
    seat = fields.get("seat", "")
    if seat and seat not in SEATS:
        raise FitError(f"A seat is one of these: {', '.join(SEATS.values())}.")
    return seat


READ: dict[str, Callable[[Mapping[str, str]], Interface]] = {
    "thread": _thread, "wheel": _wheel, "hub": _hub, "electrical": _electrical,
}  # fmt: skip


def stored(interface: Interface) -> dict[str, str]:
    """The fields to keep: text alone, what is unsaid left out; `read` gives the same back."""
    if isinstance(interface, Threaded):
        thread = interface.thread
        said = {"thread": str(thread), "side": thread.side, "seat": interface.seat}
        said["strength"] = interface.strength
    elif isinstance(interface, Wheel):
        said = {"pattern": str(interface.pattern), "bore": _plain(interface.bore)}
        said["seat"] = interface.seat
    elif isinstance(interface, Hub):
        said = {"pattern": str(interface.pattern), "spigot": _plain(interface.spigot)}
        said["seat"] = interface.seat
    else:
        said = {"volts": _plain(interface.volts), "connector": interface.connector}
    return {"kind": interface.kind} | {name: text for name, text in said.items() if text}


def words(interface: Interface) -> str:
    """`M12×1.25 bolt, class 10.9`, `wheel 5×112, bore 66.6 mm, 60° cone`, `12 V, three-pin plug`."""
    if isinstance(interface, Threaded):
        side = {EXTERNAL: " bolt", INTERNAL: " nut"}.get(interface.thread.side, "")
        said = [f"{interface.thread}{side}", SEATS.get(interface.seat, "")]
        said.append(f"class {interface.strength}" if interface.strength else "")
    elif isinstance(interface, Wheel):
        said = [f"wheel {interface.pattern}", _mm("bore", interface.bore)]
        said.append(SEATS.get(interface.seat, ""))
    elif isinstance(interface, Hub):
        said = [f"hub {interface.pattern}", _mm("spigot", interface.spigot)]
        said.append(SEATS.get(interface.seat, ""))
    else:
        volts = f"{plain(interface.volts)} V" if interface.volts is not None else ""
        said = [volts, interface.connector]
    return ", ".join(text for text in said if text)


def _plain(size: Fraction | None) -> str:
    return "" if size is None else plain(size)


def _mm(name: str, size: Fraction | None) -> str:
    return "" if size is None else f"{name} {plain(size)} mm"
