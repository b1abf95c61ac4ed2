"""Numbers of rows that stand within a text or a list, given anew where a garage comes to another server."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from garage.engine.journal import MARK, within_most

# From a table and the number that a row had there to the one that it has here; None where there is no such row.
Renumber = Callable[[str, int], int | None]

THINGS = {
    "cars": "garage_vehicle",
    "jobs": "builds_job",
    "events": "garage_event",
    "people": "garage_membership",
    "parts": "parts_part",
}
PACK_KEYS = (
    (re.compile(r"(always:.*:car:)(\d{1,18})"), "garage_vehicle"),
    (re.compile(r"(part:)(\d{1,18})"), "parts_part"),
    (re.compile(r"(owed:)(\d{1,18})"), "builds_owed"),
)


Row = Mapping[str, Any]  # the whole of it, by column, with its old numbers


def photos_of_share(photos: Any, row: Row, renumber: Renumber) -> list[int]:
    """The photos that a link showed, without those that are deleted."""
    return [new for old in photos if (new := renumber("garage_photo", old)) is not None]


def jobs_of_share(jobs: Any, row: Row, renumber: Renumber) -> list[int]:
    """The jobs that guests of a link might tick, without those that are deleted."""
    return [new for old in jobs if (new := renumber("builds_job", old)) is not None]


def thing_of_journal(of: int, row: Row, renumber: Renumber) -> int:
    """What a line of the journal is about; nought where it is gone, since no row has that number."""
    return renumber(THINGS.get(row["kind"], ""), of) or 0


def said_in_journal(said: str, row: Row, renumber: Renumber) -> str:
    """The people who are marked in what was answered; nought as above."""

    def anew(mark: re.Match[str]) -> str:
        return f"{{people-{renumber(THINGS['people'], int(mark[1])) or 0}}}"

    return within_most(MARK.sub(anew, said))


def key_of_pack_line(key: str, row: Row, renumber: Renumber) -> str:
    """What keeps a line of a pack list the same from one making to the next."""
    for pattern, table in PACK_KEYS:
        if named := pattern.fullmatch(key):
            new = renumber(table, int(named[2]))
            return f"{named[1]}{f'gone-{named[2]}' if new is None else new}"
    return key


OWN_KIND = re.compile(r"(own-)(\d{1,18})")


def kinds_of_reading(value: Any, row: Row, renumber: Renumber) -> Any:
    """Kinds of reading that the garage made up itself, as they are called by their number, wherever they stand."""
    if isinstance(value, list):
        return [kinds_of_reading(part, row, renumber) for part in value]
    if isinstance(value, dict):
        return {key: kinds_of_reading(part, row, renumber) for key, part in value.items()}
    if isinstance(value, str) and (named := OWN_KIND.fullmatch(value)):
        new = renumber("builds_ownkind", int(named[2]))
        return value if new is None else f"{named[1]}{new}"
    return value


# By table and column.
WITHIN: dict[tuple[str, str], Callable[[Any, Row, Renumber], Any]] = {
    ("garage_share", "photos"): photos_of_share,
    ("garage_share", "may_tick"): jobs_of_share,
    ("garage_journaltie", "of"): thing_of_journal,
    ("garage_journalline", "said"): said_in_journal,
    ("builds_packitem", "key"): key_of_pack_line,
    ("builds_requiredreadings", "kinds"): kinds_of_reading,
    ("builds_readingage", "kind"): kinds_of_reading,
    ("builds_job", "measures"): kinds_of_reading,
    ("builds_ownrecipe", "body"): kinds_of_reading,
}
