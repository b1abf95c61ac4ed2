"""Lines of the event's day, as the page draws them and the phone is told of them."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Act:
    """A button: what it says, which state it asks for, and which field must be filled for it."""

    label: str
    to: str
    asks: str = ""


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
    def now(self) -> dict[str, str | int]:
        """As the phone is told of it."""
        return {
            "item": self.id,
            "state": self.state,
            "version": self.version,
            "words": self.words,
        }


@dataclass(frozen=True)
class ItemGroup:
    title: str
    line: str
    items: tuple[PaddockItem, ...]
