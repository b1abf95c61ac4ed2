"""What stands in a calendar, and what became of it since it was last asked for."""

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime
from hashlib import sha256
from urllib.parse import urlsplit
from uuid import UUID


@dataclass(frozen=True)
class Item:
    """One thing with its time (aware); `key` names it within its calendar.

    An evening has its `day` and the `jobs` (pk) that are planned in it: it may move, and stays the same evening.
    A `whole_day` item is of the date of `starts`. `url` leads to its page.
    """

    key: str
    starts: datetime
    ends: datetime
    summary: str
    description: str = ""
    place: str = ""
    url: str = ""
    day: date | None = None
    jobs: tuple[int, ...] = ()
    whole_day: bool = False

    @property
    def digest(self) -> str:
        """Of all that it says beside its time; under whichever name this garage was asked, it is the same."""
        page = urlsplit(self.url)._replace(scheme="", netloc="").geturl()
        said = [self.summary, self.description, self.place, page, self.whole_day]
        return sha256(json.dumps(said).encode()).hexdigest()


@dataclass(frozen=True)
class Told:
    """An item as it was last told: by which `uid`, in which revision (`sequence`), changed when."""

    key: str
    uid: UUID
    starts: datetime
    ends: datetime
    day: date | None
    jobs: tuple[int, ...]
    digest: str
    sequence: int
    changed_at: datetime


def told_anew(items: Iterable[Item], before: Iterable[Told], at: datetime, draw: Callable[[], UUID]) -> list[Told]:
    """The items as they are told now, in their order; `draw` makes the uid of one that is new.

    One whose time is another has the next sequence number (RFC 5546, 2.1.4), one of which anything is another is
    changed `at` (aware). What no item is any more is not told.
    """
    items = list(items)
    known = {told.key: told for told in before}
    was = {item.key: known[item.key] for item in items if item.key in known}
    was |= _moved([item for item in items if item.key not in was], known, set(was), at)
    return [_told(item, was.get(item.key), at, draw) for item in items]


def _told(item: Item, was: Told | None, at: datetime, draw: Callable[[], UUID]) -> Told:
    if was is None:
        return Told(item.key, draw(), item.starts, item.ends, item.day, item.jobs, item.digest, 0, at)
    moved = (item.starts, item.ends) != (was.starts, was.ends)
    changed = moved or item.digest != was.digest
    return replace(
        was,
        key=item.key,
        starts=item.starts,
        ends=item.ends,
        day=item.day,
        jobs=item.jobs,
        digest=item.digest,
        sequence=was.sequence + moved,
        changed_at=at if changed else was.changed_at,
    )


def _moved(new: list[Item], known: dict[str, Told], there: set[str], at: datetime) -> dict[str, Told]:
    """Evenings that are told under another key now: of the same day, else of another with the same jobs.

    The likest pair first: a common day, then more jobs in common, then the nearer start.
    """
    gone = [told for key, told in known.items() if told.day and key not in there and told.ends > at]
    pairs = [
        (item.day != told.day, -len(common), abs(item.starts - told.starts), item.key, told.key)
        for item in new
        for told in gone
        if item.day and ((common := {*item.jobs} & {*told.jobs}) or item.day == told.day)
    ]
    was: dict[str, Told] = {}
    taken: set[str] = set()
    for *_, key, other in sorted(pairs):
        if key not in was and other not in taken:
            was[key] = known[other]
            taken.add(other)
    return was
