"""What a car is short of, or whose date is in doubt, and which items of a list look at it."""

from collections.abc import Iterable
from dataclasses import dataclass

from builds.gear.engine import GearFact
from builds.scrutineering.engine.check_list import ListItem

# Which items of the shipped list look at gear of each kind.
GEAR_ITEMS: dict[str, tuple[str, ...]] = {
    "belts": ("belt-dates", "belts-whole"),
    "seat": ("seat-dates", "seat-mounts"),
    "helmet": ("helmet",),
    "head_restraint": ("neck",),
    "clothing": ("overalls",),
    "window_net": ("arm-restraints",),
    "extinguisher": ("extinguisher", "plumbed-fire"),
    "fuel_cell": ("fuel-cell",),
    "tyres": ("tyre-kind",),
    "papers": ("licence", "cage-papers"),
}
SAID = {
    "out": "out of date on the day",
    "due": "due by its use",
    "undated": "not known to be in date",
    "struck": "went through a crash",
    "missing": "not on record",
}


@dataclass(frozen=True, slots=True)
class Lack:
    """Something the car is short of, or whose date is in doubt; `words` says what in a sentence.

    It concerns the items of its systems, and those with one of its `keys`.
    """

    words: str
    systems: frozenset[str] = frozenset()
    keys: frozenset[str] = frozenset()

    def concerns(self, item: ListItem) -> bool:
        return not self.systems.isdisjoint(item.systems) or item.key in self.keys


def gear_lack(gear: GearFact) -> Lack:
    """Of gear that does not pass on the day."""
    words = f"{gear.name}: {SAID[gear.state]}. {gear.words}".strip()
    return Lack(words, keys=frozenset(GEAR_ITEMS.get(gear.kind, ())))


def owed_lack(part: str, systems: Iterable[str]) -> Lack:
    """Of a part by its name, pulled for another car; it belongs to those systems (slugs)."""
    return Lack(f"Owed: {part} is not back.", frozenset(systems))
