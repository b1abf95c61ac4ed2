"""Every kind of deed, from a code to the deed and between deeds and changes: a new kind is entered here."""

from collections.abc import Iterable

from builds.remedies.deeds.again import AgainDeed
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.defer import DeferDeed
from builds.remedies.deeds.enter import EnterDeed
from builds.remedies.deeds.hands import HandsDeed
from builds.remedies.deeds.heat import HeatDeed
from builds.remedies.deeds.hold import HoldDeed
from builds.remedies.deeds.home import HomeDeed
from builds.remedies.deeds.off import OffDeed
from builds.remedies.deeds.part import PartDeed
from builds.remedies.deeds.room import RoomDeed
from builds.remedies.deeds.session import SessionDeed
from builds.remedies.deeds.weigh import WeighDeed
from builds.remedies.engine.changes.change import Change
from builds.remedies.facts.late_car import LateCar

# Changes of as much trouble are tried in this order.
OFFERED = (DeferDeed, RoomDeed, SessionDeed, HandsDeed, PartDeed, HeatDeed, HomeDeed)
TRIED_ONLY = (OffDeed, HoldDeed, EnterDeed, WeighDeed)
KINDS: dict[str, type[Deed]] = {kind.kind: kind for kind in (AgainDeed, *OFFERED, *TRIED_ONLY)}
MOST_DEEDS, LONGEST_CODE = 24, 400


def parse(code: str) -> Deed:
    """What `Deed.code` wrote. ValueError for anything else."""
    kind, *parts = code.split(".")
    if kind not in KINDS or len(code) > LONGEST_CODE:
        raise ValueError("no such deed")
    return KINDS[kind].from_parts(parts)


def parse_all(text: str) -> tuple[Deed, ...]:
    """Codes with spaces between them. ValueError when one is none, or there are too many."""
    deeds = tuple(parse(code) for code in text.split())
    if len(deeds) > MOST_DEEDS:
        raise ValueError("too many deeds")
    return deeds


def offers(car: LateCar) -> tuple[Change, ...]:
    """What is worth a try for the car."""
    return tuple(change for kind in OFFERED for change in kind.offers(car))


def kinds_of(changes: Iterable[Change]) -> tuple[type[Deed], ...]:
    """Each kind of deed once, in the order of the changes."""
    return tuple(KINDS[kind] for kind in dict.fromkeys(change.kind for change in changes))


def deeds_behind(changes: Iterable[Change], car: LateCar) -> tuple[Deed, ...]:
    """What has to be done to the garage for these changes: for none of them, planning anew."""
    deeds = tuple(deed for change in changes for deed in KINDS[change.kind].from_change(change, car))
    return deeds or (AgainDeed(),)


def changes_of(deeds: Iterable[Deed], car: LateCar) -> tuple[Change, ...]:
    """What deeds change for the planner.

    KeyError for rows that are gone, ValueError for a deed that is no remedy.
    """
    alike: dict[str, list[Deed]] = {}
    for deed in deeds:
        alike.setdefault(deed.kind, []).append(deed)
    return tuple(change for kind, group in alike.items() for change in KINDS[kind].changes(group, car))
