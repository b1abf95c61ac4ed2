"""Which kinds of work on a car somebody's own words name. Common practice, no source."""

import re
from collections.abc import Collection, Iterable
from functools import lru_cache

from builds.readings.engine.car_job import NO_WORK, ON_WHEELS
from builds.readings.engine.kinds_named import NAMED
from builds.readings.engine.kinds_of_work import KINDS, pulled_kinds
from builds.readings.engine.kinds_touch import TOUCHED_BY
from builds.readings.engine.moved_said import moves_said, units_moved
from builds.readings.engine.readings_said import beside_readings, readings_said
from builds.readings.engine.wheels_said import wheels_back_on_said
from garage.engine.names_said import NameTable
from garage.engine.systems import SAFETY_SYSTEMS
from garage.engine.systems_said import systems_said, worked_on

# What `hot` comes to depends on what is welded, ground or cut: on `structure` it is the car itself.
_HOT, _STRUCTURE = "hot", "structure"
# What works metal where it names the car itself, or what is welded to it; what mends or renews it, the car alone.
_METAL, _MENDS = "metal", "mends"
# Metal that has cracked is welded, whatever somebody calls it: the car itself, or what is welded to it. What has
# rusted or split is welded where it is the car itself.
_CRACK, _HOLED, _BRACKET = "crack", "holed", "bracket"
# What works the brakes without their fluid and from outside: on a cable nothing of them is opened.
_CABLE = "cable"
# Which system a hose, a pipe or a union is of is said elsewhere in the line.
_HOSE = "hose"
_OF_HOSE = {"brakes": "hydraulics_opened", "fuel": "fuel_line"}
_WELDED_APART = frozenset({"steering", "suspension", "cage"})
_CRASH = "crash"
_KINDS = NameTable(NAMED)
# A wheel that is only torqued is not taken off.
_ONLY_TORQUED = frozenset({"wheel_off", "wheel_or_spacer"})
# A look that is only called after a crash says of none: "crash check", not "crash, check the front".
_CRASH_LOOK = re.compile(
    r"\b(?:crash|shunt|collision|kerb|curb)(?:-|\s+)(?:(?:strike|damage)(?:-|\s+))?"
    r"(?:check(?:s|ed|ing|[\s-]?(?:over|list|sheet))?|inspect(?:ion|ions|ed)?|survey|look[\s-]?over)"
    r"(?=\s*(?:$|[.,;:()/–—]|(?:of|on|for|before|after|by|at|done)\b))",
    re.IGNORECASE,
)


def may_open(text: str, systems: Iterable[str]) -> tuple[str, ...]:
    """Those of a job's systems (slugs) that work of these words may open: on a cable nothing of the brakes is."""
    cable = _CABLE in _KINDS.said(worked_on(text))
    return tuple(system for system in systems if not (cable and system == "brakes"))


def hose_said(text: str) -> bool:
    """Whether the text names a hose, a pipe or a union, of whatever system."""
    return _HOSE in _KINDS.said(text)


@lru_cache(maxsize=4096)
def kinds_said(text: str, systems: tuple[str, ...]) -> tuple[str, ...]:
    """The kinds of work (slugs) that the text names of a job on these systems (slugs), and so are likely.

    Of a safety system that none of them opens, what work on it mostly opens; not so of one that is only measured.
    """
    text = worked_on(text)
    if wheels_back_on_said(text):
        return (ON_WHEELS,)
    named = _named(text)
    taken = readings_said(text)
    only_torqued = _ONLY_TORQUED if "wheel_torque" in taken else frozenset()
    said = {kind for kind in named if kind in KINDS and kind not in only_torqued} | units_moved(text)
    if _HOT in named or _is_broken_metal(named, systems) or _is_mended_metal(named, text, systems):
        said |= _hot(systems, structure=_STRUCTURE in named)
    if _HOSE in named:
        said |= {kind for system, kind in _OF_HOSE.items() if system in systems}
    measured = set(systems_said(text)).difference(systems_said(beside_readings(text)))
    if _CABLE in named:
        measured.add("brakes")
    said |= set(_mostly((system for system in systems if system not in measured), said))
    if said - NO_WORK:
        said -= NO_WORK  # work and the drive after it in one line: the drive is a job of its own
    return tuple(kind for kind in KINDS if kind in said)


def _named(text: str) -> frozenset[str]:
    said = _KINDS.said(text)
    looked = _CRASH in said and _CRASH not in _KINDS.said(_CRASH_LOOK.sub(" ", text))
    return said - {_CRASH} if looked else said


# What is done to a car and not by a part that goes on it or comes off.
_NO_PART = frozenset({"hot_work", "part_weld", "paint", "two_pack", "driven", _CRASH})


def part_kinds(name: str, systems: Collection[str], *, unit: bool = False) -> tuple[str, ...]:
    """The kinds of work (slugs) that a car saw as a part of that name and of these systems (slugs) came off or went on.

    `unit` as of `pulled_kinds`.
    """
    named = kinds_said(f"fit {name}", tuple(systems))
    opened = (kind for kind in named if kind not in _NO_PART)
    return tuple(dict.fromkeys([*pulled_kinds(systems, unit=unit), *opened]))


def _is_broken_metal(named: Collection[str], systems: Iterable[str]) -> bool:
    """The car itself, or a bracket that lives hang on: one of a lamp is left to whoever finds it."""
    bracket = _BRACKET in named and not SAFETY_SYSTEMS.isdisjoint(systems)
    return (_STRUCTURE in named and _HOLED in named) or (bracket and _CRACK in named)


def _is_mended_metal(named: Collection[str], text: str, systems: Iterable[str]) -> bool:
    """New metal in the car itself, or metal worked on what is welded when it is mended."""
    if _STRUCTURE in named:
        return _METAL in named or _MENDS in named or moves_said(text)
    return _METAL in named and not _WELDED_APART.isdisjoint(systems)


def _hot(systems: Iterable[str], *, structure: bool) -> set[str]:
    if structure:
        return {"chassis_weld"}
    return {"hot_work"} if _WELDED_APART.isdisjoint(systems) else {"part_weld", "hot_work"}


def _mostly(systems: Iterable[str], said: Iterable[str]) -> Iterable[str]:
    opened = {system for kind in said for system in TOUCHED_BY.get(kind, ())}
    left = [system for system in systems if system in SAFETY_SYSTEMS and system not in opened]
    return (kind for kind in pulled_kinds(left) if kind not in NO_WORK)
