"""Deeds as changes of a problem: what a page sends back, to be planned and simulated."""

from collections.abc import Iterator

from builds.plan.engine.ids import id_of
from builds.remedies.engine.changes import Change, Defer, ExtraSession, Hands, Room
from builds.remedies.facts import offers
from builds.remedies.facts.deeds import Deed
from builds.remedies.facts.quest import Quest
from garage.engine.presence import wall_moment


def changes_of(quest: Quest, deeds: tuple[Deed, ...]) -> tuple[Change, ...]:
    """KeyError for rows that are gone, ValueError for a deed that is no remedy."""
    heated = tuple(deed for deed in deeds if deed.kind == "heat")
    found = [change for deed in deeds if deed.kind not in ("again", "heat") for change in _changes(quest, deed)]
    if heated and (change := offers.heater(quest, heated)):
        found.append(change)
    return tuple(found)


def _changes(quest: Quest, deed: Deed) -> Iterator[Change]:
    first = deed.numbers[0]
    if deed.kind == "defer":
        jobs = tuple(id_of("job", pk) for pk in deed.numbers[1:])
        yield Defer(jobs, quest.due)
    elif deed.kind == "session":
        yield ExtraSession(id_of("person", first), *_slots(quest, deed))
    elif deed.kind == "hands":
        skill = quest.book.skills[first].slug if first else None
        yield Hands(skill, *_slots(quest, deed), quest.rows.skill_ids(skill) if skill else ())
    elif deed.kind == "room":
        yield Room(id_of("station", first))
    elif deed.kind == "home":
        yield offers.stay_home(quest, quest.book.entries[first])
    elif deed.kind == "part" and deed.day:
        if change := offers.part_sooner(quest, quest.book.needs[first], deed.day):
            yield change
    else:
        raise ValueError(f"{deed.kind} is no remedy")


def _slots(quest: Quest, deed: Deed) -> tuple[int, int, float]:
    """The slots of a deed's hours, and how many hours that is."""
    if deed.day is None:
        raise ValueError("hours without a day")
    begin, end = (wall_moment(deed.day, minute, quest.rows.zone) for minute in deed.numbers[1:])
    first, last = quest.clock.first_from(begin), quest.clock.last_until(end)
    return first, last, offers.hours_of(first, last)
