"""What a scrutineer looks at: the items shipped with the program, an organiser's own lines."""

import re
import tomllib
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from builds.readings.engine.kinds_of_work import KINDS
from garage.engine.systems import SYSTEMS
from garage.engine.systems_said import systems_said
from garage.engine.vocabulary import known

FOLDER = Path(__file__).parents[1] / "lists"
SCRUTINEERING, FIRST_RUN = "scrutineering", "first_run"
LINES_MAX = 200
LINE_MAX = 200
SECTION_MAX = 80

# What a car may have or lack; an item that asks for one of these is left out of other cars.
HAS: dict[str, str] = {
    "cage": "a cage",
    "harness": "harness belts",
    "shell_seat": "a one-piece shell seat",
    "extinguisher": "a hand-held extinguisher",
    "plumbed_fire": "a plumbed-in extinguisher",
    "fuel_cell": "a fuel cell",
    "electric_pump": "an electric fuel pump",
    "master_switch": "a master switch",
    "quick_release": "a steering wheel with quick release",
    "assisted_steering": "assisted steering",
    "anti_roll_bars": "anti-roll bars",
    "spacers": "wheel spacers",
    "hand_brake": "a hand brake",
    "lights": "lights",
    "catch_tank": "a catch tank",
    "turbo": "a turbo",
    "chain_drive": "chain drive",
    "closed_body": "a closed body",
    "open_body": "an open body",
    "windscreen": "a windscreen",
    "mud_flaps": "mud flaps",
    "neck_device": "a neck device for its driver",
}

_MARK = re.compile(r"^\s*(?:[-*•–□☐]|\[[ xX]?\]|\(?\d{1,3}[.)]|\(?[a-z][.)])\s+")


@dataclass(frozen=True, slots=True)
class ListItem:
    """One thing to look at: what it touches (systems, kinds of work), and what it is only for.

    `key` is the shipped one's own; an organiser's line has none and goes by its text.
    """

    section: str
    text: str
    systems: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    has: tuple[str, ...] = ()
    key: str = ""


@cache
def load_items(kind: str = SCRUTINEERING) -> tuple[ListItem, ...]:
    """The shipped items of a kind of list, section after section.

    ValueError when one names an unknown system, kind of work or thing that a car may have, or when
    two share a key. Source: common practice, no source; the organiser's rules come first.
    """
    tables = [tomllib.loads(path.read_text(encoding="utf-8")) for path in FOLDER.glob("*.toml")]
    tables.sort(key=lambda table: int(table["place"]))
    items = tuple(
        _item(table, line) for table in tables if table.get("kind", SCRUTINEERING) == kind for line in table["items"]
    )
    if len({item.key for item in items}) < len(items):
        raise ValueError("Two items of a scrutineering list share a key.")
    return items


def _item(table: dict[str, Any], row: dict[str, Any]) -> ListItem:
    systems = row.get("systems", table.get("systems", ()))
    known(systems, SYSTEMS, "system")
    known(row.get("kinds", ()), KINDS, "kind of work")
    known(row.get("has", ()), HAS, "thing that a car may have")
    return ListItem(
        table["title"],
        row["text"],
        tuple(systems),
        tuple(row.get("kinds", ())),
        tuple(row.get("has", ())),
        row["key"],
    )


@lru_cache(maxsize=64)
def own_items(text: str, heading: str) -> tuple[ListItem, ...]:
    """The items of a list pasted line by line.

    Bullets, boxes and numbers before a line go; a line that ends in a colon or begins with # heads
    those after it, and until one does `heading` does. A line that comes twice counts once, blanks
    count nothing. ValueError with one sentence when there is no item, too many, or one is too long.
    """
    section, items = heading[:SECTION_MAX], dict[str, ListItem]()
    for line in text.splitlines():
        words = " ".join(_MARK.sub("", line).split())
        if words.startswith("#") or words.endswith(":"):
            section = words.strip("#: ")[:SECTION_MAX] or section
        elif words:
            if len(words) > LINE_MAX:
                raise ValueError(f"A line is longer than {LINE_MAX} characters: {words[:40]}…")
            # Each by itself: “Wheel nuts tight” under “Steering” is no steering wheel.
            about = {*systems_said(section), *systems_said(words)}
            systems = tuple(system for system in SYSTEMS if system in about)
            items.setdefault(words.casefold(), ListItem(section, words, systems))
    if not items:
        raise ValueError("Write at least one thing to look at, each on a line of its own.")
    if len(items) > LINES_MAX:
        raise ValueError(f"{LINES_MAX} lines are the most; these are {len(items)}.")
    return tuple(items.values())
