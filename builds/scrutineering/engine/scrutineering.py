"""Which items a car gets for an entry, which of them stand first, and which ticks are void."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.readings.engine.kinds_of_work import disturbed_by
from builds.scrutineering.engine.check_list import ListItem
from builds.scrutineering.engine.lacks import Lack
from builds.work.engine.car_work import CarWork


@dataclass(frozen=True, slots=True)
class RankedItem:
    """An item with its place in the list as it was given, and why it stands first (else "")."""

    item: ListItem
    place: int
    why: str = ""


def items_for(
    shipped: Iterable[ListItem], own: Iterable[ListItem] = (), has: Collection[str] | None = None
) -> tuple[ListItem, ...]:
    """The items a car gets: the organiser's own, then the shipped ones that are not among them.

    `has` is what the car has (see `check_list.HAS`); None while nobody has said, and then nothing
    is left out. An item with several tags needs them all. Compared by text, capitals aside.
    """
    first = tuple(own)
    texts = {item.text.casefold() for item in first}
    return first + tuple(
        item for item in shipped if item.text.casefold() not in texts and (has is None or set(item.has) <= set(has))
    )


def asked_since(wanted: Iterable[ListItem], listed: Iterable[ListItem]) -> tuple[ListItem, ...]:
    """The items that a list would get now and has not got: shipped ones by their key, an organiser's by their words."""
    there = tuple(listed)
    keys, texts = {item.key for item in there}, {item.text.casefold() for item in there}
    return tuple(item for item in wanted if item.text.casefold() not in texts and not (item.key and item.key in keys))


def why_behind(made_by: str, goes_by: str, lacks: int) -> str:
    """Why a list is to be brought up to date; empty where it is.

    Names of organisers' lists (empty is the general one) that it was made from and that its event goes by, and how
    many items that one has and this has not.
    """
    if made_by != goes_by:
        return f"It was made from {_list_of(made_by)}, and the event goes by {_list_of(goes_by)}."
    many = f"{lacks} items are" if lacks > 1 else "1 item is"
    return f"{many} asked for that it has not got." if lacks else ""


def _list_of(organiser: str) -> str:
    return f"the list of {organiser}" if organiser else "the general list"


# What every car has and every scrutineer looks at. Common practice, no source.
EVERY_CARS = ("steering", "brakes", "suspension", "wheels")


def unlooked_at(listed: Iterable[ListItem]) -> tuple[str, ...]:
    """The systems of every car (slugs) of which an organiser's lines say nothing, where they are the whole list."""
    items = tuple(listed)
    if any(item.key for item in items):
        return ()
    named = {system for item in items for system in item.systems}
    return tuple(system for system in EVERY_CARS if system not in named)


def in_order(
    items: Iterable[ListItem], lacks: Iterable[Lack] = (), works: Iterable[CarWork] = ()
) -> tuple[RankedItem, ...]:
    """The items as they are looked at: those that want a look most come first, each with why.

    What the car is short of; then what was touched by a kind of work that the item names, the
    latest first; then what was touched in its systems; then the rest in the order given. Source:
    common practice, no source.
    """
    short, done = tuple(lacks), tuple(works)
    ranked = []
    for place, item in enumerate(items):
        lack = next((lack for lack in short if lack.concerns(item)), None)
        touched = [work for work in done if work.touches(item.systems, disturbed_by(item.kinds, seen=work.seen))]
        if lack:
            ranked.append(((0, 0, 0.0, place), RankedItem(item, place, lack.words)))
            continue
        if not touched:
            ranked.append(((2, 0, 0.0, place), RankedItem(item, place)))
            continue
        named = [work for work in touched if not work.kinds.isdisjoint(disturbed_by(item.kinds, seen=work.seen))]
        last = max(named or touched, key=lambda work: (work.ended is None, _stamp(work)))
        rank = (1, 0 if named else 1, -_stamp(last) if last.ended else float("-inf"), place)
        ranked.append((rank, RankedItem(item, place, said(last))))
    ranked.sort(key=lambda pair: pair[0])
    return tuple(standing for _, standing in ranked)


def _stamp(work: CarWork) -> float:
    return work.ended.timestamp() if work.ended else 0.0


def said(work: CarWork) -> str:
    """What was touched, in a sentence."""
    if work.words:
        return work.words
    if work.ended is None:
        return f"“{work.title}” {work.not_over}."
    return f"“{work.title}” was worked on until {work.day}."


def touched_since(
    systems: Collection[str],
    ticked: datetime,
    works: Iterable[CarWork],
    kinds: Collection[str] = (),
) -> str:
    """Why a tick made at `ticked` holds no more: work that ended later, or what was seen; "" while it holds.

    Work on its systems touches it, and work of one of its `kinds`, in hand too. An item that
    belongs to no system and names no kind is never touched.
    """
    touched = (work for work in works if work.touches(systems, disturbed_by(kinds, seen=work.seen)))
    later = [work for work in touched if work.ended is None or work.ended > ticked]
    if not later:
        return ""
    last = max(later, key=lambda work: (work.ended is None, _stamp(work)))
    return f"{'Seen' if last.seen else 'Touched'} since: {said(last)}"
