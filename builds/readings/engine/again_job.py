"""What a job is that takes readings again: measured once all work is over, or bled where brakes were opened."""

from collections.abc import Sequence
from dataclasses import dataclass

from builds.readings.engine.amiss import rank_of, systems_read
from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.vocabulary import names_of
from builds.work.engine.again import BLEED_AGAIN

# Minutes on hand to set up, and for each reading: goes well, likely, fights back. Invented.
SET_UP, EACH = (10, 20, 40), (10, 15, 30)
BLEEDING = (45, 60, 120)
LONGEST_TITLE = 120
NAMED = 3  # in a title too long for all of them
BLEED = "Bleed the brakes and check for leaks"
LOOKED_AT = "Hard pedal held for a minute, every union dry, fluid kind and date written down"


@dataclass(frozen=True, slots=True)
class AgainJob:
    """`again` marks its sort; `work` is minutes, `measures`, `systems`, `skill` and `station` are slugs.

    `looked_at` is what a second pair of eyes has to see of it, empty where nothing.
    """

    again: str
    title: str
    note: str
    measures: tuple[str, ...]
    systems: tuple[str, ...]
    rank: str
    work: tuple[int, int, int]
    skill: str = ""
    station: str = ""
    looked_at: str = ""


def again_job(again: str, kinds: Sequence[ReadingKind]) -> AgainJob | None:
    """Of these kinds of reading, all of the sort that is marked so; None of no kind.

    It touches what they are read on and is as grave as the gravest of them. Common practice, no source.
    """
    if not kinds:
        return None
    measures = tuple(kind.key for kind in kinds)
    systems = tuple(dict.fromkeys(system for kind in kinds for system in systems_read(kind)))
    rank = "safety" if any(rank_of(kind) == "safety" for kind in kinds) else "needed"
    if again == BLEED_AGAIN:
        note = f"The brakes were opened. To measure: {names_of(kinds)}."
        return AgainJob(again, BLEED, note, measures, systems, rank, BLEEDING, "brakes", "bay", LOOKED_AT)
    on_floor = any("floor" in conditions_of(kind.key) for kind in kinds if not kind.own)
    skill, station = ("align", "floor") if on_floor else ("", "")
    note = f"To measure: {names_of(kinds)}."
    return AgainJob(again, title_of(kinds), note, measures, systems, rank, _work(len(kinds)), skill, station)


def title_of(kinds: Sequence[ReadingKind]) -> str:
    """`Measure again: camber, front toe`; the first few where there are too many to name."""
    title = f"Measure again: {names_of(kinds)}"
    if len(title) <= LONGEST_TITLE:
        return title
    named = f"Measure again: {names_of(kinds[:NAMED])} and {len(kinds) - NAMED} more"
    return named if len(named) <= LONGEST_TITLE else f"Measure again: {len(kinds)} readings"


def _work(count: int) -> tuple[int, int, int]:
    low, likely, high = (base + for_reading * count for base, for_reading in zip(SET_UP, EACH, strict=True))
    return low, likely, high
