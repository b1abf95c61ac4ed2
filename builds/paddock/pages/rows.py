"""Lines of the event's day, as the page draws them and the phone is told of them."""

from dataclasses import dataclass

from builds.packing.engine.pack_states import LABELS as PACK_LABELS
from builds.packing.engine.pack_states import PackState
from builds.packing.models import PackItem
from builds.scrutineering.engine.check_states import LABELS as CHECK_LABELS
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.models.check import CheckItem
from garage.clock import dated_words


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
    """`version` counts what was written to it; `asks` labels a value that is typed, if one is."""

    id: str
    name: str
    state: str
    words: str
    version: int
    acts: tuple[Act, ...]
    more: tuple[Act, ...] = ()
    why: str = ""
    asks: str = ""
    keys: str = "text"
    notes: bool = False

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
    """`counts` is the state that its line counts, so that a phone without signal counts on; empty where it does not."""

    title: str
    line: str
    items: tuple[PaddockItem, ...]
    counts: str = ""


def stands_words(item: CheckItem | PackItem, void: str = "") -> str:
    """`ticked, Tove 09:10`, or why a tick has to be made again."""
    if void:
        return f"tick again: {void}"
    is_check = isinstance(item, CheckItem)
    label = CHECK_LABELS[CheckState(item.state)] if is_check else PACK_LABELS[PackState(item.state)]
    by = f", {item.by} {dated_words(item.at)}" if item.by else ""
    note = f": {item.note}" if is_check and item.note else ""
    return f"{label}{by}{note}"
