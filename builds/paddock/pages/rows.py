"""Lines of the event's day, as the page draws them and the phone is told of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from builds.packing.engine.pack_states import LABELS as PACK_LABELS
from builds.packing.engine.pack_states import PackState
from builds.packing.models import PackItem
from builds.scrutineering.engine.check_states import LABELS as CHECK_LABELS
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.models.check import CheckItem
from garage.clock import dated_words

LINES_OPEN = 7  # so many fit on a phone beside the lines of the cars; what is longer opens with a tap


@dataclass(frozen=True)
class Act:
    """A button: what it says, which state it asks for, and which field must be filled for it.

    One that whoever reads the page would be refused now is `hidden`.
    """

    label: str
    to: str
    asks: str = ""
    hidden: bool = False


@dataclass(frozen=True)
class PaddockItem:
    """`version` counts what was written to it; `asks` labels a value that is typed, if one is, in that `unit`, and
    `wrench` is the usual one of a joint.

    `section` is the part of its list that it stands in, where the list has parts; `near` the least and the most
    that is typed there without a reason, as numbers of the unit that is asked for.
    """

    id: str
    name: str
    state: str
    words: str
    version: int
    acts: tuple[Act, ...]
    more: tuple[Act, ...] = ()
    why: str = ""
    asks: str = ""
    unit: str = ""
    wrench: str = ""
    keys: str = "text"
    notes: bool = False
    section: str = ""
    near: tuple[str, ...] = ()

    @property
    def due(self) -> bool:
        return self.state == "open"

    @property
    def now(self) -> dict[str, str | int | list[str]]:
        """As the phone is told of it."""
        return {
            "item": self.id,
            "state": self.state,
            "version": self.version,
            "words": self.words,
            "acts": [act.to for act in (*self.acts, *self.more) if not act.hidden],
        }


@dataclass(frozen=True)
class ItemGroup:
    """A list, or a section of one. `counts` is the state that its line counts, empty where it counts none.

    A phone without signal counts on by it. `of_any` where whoever works here says so, also of a car that he does not
    work on.
    """

    title: str
    line: str
    items: tuple[PaddockItem, ...]
    counts: str = ""
    of_any: bool = False

    @property
    def id(self) -> str:
        """Of the whole list's element: a line stands in one list."""
        return f"list-{self.items[0].id}"

    @property
    def due(self) -> bool:
        return any(item.due for item in self.items)

    @property
    def sections(self) -> tuple["ItemGroup", ...]:
        """In the order in which they come first; none where all of it can lie open."""
        titles = dict.fromkeys(item.section for item in self.items)
        if len(self.items) <= LINES_OPEN or len(titles) < 2:
            return ()
        parts = {title: [item for item in self.items if item.section == title] for title in titles}
        return tuple(counted(title, items, self.counts) for title, items in parts.items())

    @property
    def first(self) -> "ItemGroup | None":
        """The section that is due now: the first with a line still to do, unless it is a long one."""
        now = next((section for section in self.sections if section.due), None)
        return now if now and len(now.items) <= LINES_OPEN else None

    @property
    def others(self) -> "ItemGroup | None":
        """What is not in the first section, as one."""
        now = self.first
        rest = [item for item in self.items if now is None or item not in now.items]
        return counted("Other sections" if now else "Sections", rest, self.counts) if self.sections else None

    @property
    def short(self) -> bool:
        """Whether it can be shown as it is opened for somebody, with the lines of the other cars below it."""
        return self.first is not None or len(self.items) <= LINES_OPEN


def counted(title: str, items: Sequence[PaddockItem], counts: str) -> ItemGroup:
    """`Brakes: 3 of 7`; what stays here is not among what is to be packed."""
    done = ("packed",) if counts == "packed" else ("ticked", "left_out")
    of = [item for item in items if counts != "packed" or item.state != "left"]
    line = f"{sum(item.state in done for item in of)} of {len(of)}"
    return ItemGroup(title, line, tuple(items), counts)


def stands_words(item: CheckItem | PackItem, void: str = "") -> str:
    """`ticked, Tove 09:10`, or why a tick has to be made again."""
    if void:
        return f"tick again: {void}"
    is_check = isinstance(item, CheckItem)
    label = CHECK_LABELS[CheckState(item.state)] if is_check else PACK_LABELS[PackState(item.state)]
    by = f", {item.by} {dated_words(item.at)}" if item.by else ""
    note = f": {item.note}" if is_check and item.note else ""
    return f"{label}{by}{note}"
