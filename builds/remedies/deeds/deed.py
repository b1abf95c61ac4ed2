"""What every deed knows: its code, its words, who may do it, doing it, what it changes for the planner."""

import re
from abc import ABC, abstractmethod
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields
from datetime import date, datetime
from itertools import groupby
from typing import ClassVar, Self

from builds.remedies.engine.changes.change import Change
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from garage.access import refuse_arranging, refuse_working
from garage.models import Entry, Membership

NUMBER = re.compile(r"-?\d{1,12}", re.ASCII)


def number(text: str) -> int:
    if not NUMBER.fullmatch(text):
        raise ValueError("not a number")
    return int(text)


PARTS = {int: number, date: date.fromisoformat}


@dataclass(frozen=True)
class Deed(ABC):
    """One thing that can be done to a garage so that a car makes it. Each kind is a class of its own.

    The fields of a kind are the parts of its code in their order: rows by pk, minutes of the wall's
    clock, a day. Pages send codes and stored trials hold them, so neither they nor `kind` change.
    What asks `rows` raises KeyError for a row that is not there any more.
    """

    kind: ClassVar[str]
    owner_only: ClassVar[bool] = False
    tried_as: ClassVar[str] = ""
    """What is said of changes of this kind when several were tried; empty for what is never offered."""
    caution: ClassVar[str] = ""
    """What to be careful of, as a sentence beside the button."""
    way_back: ClassVar[str] = ""
    """How it is undone, to be read after "To undo:"; empty for what leaves nothing behind."""

    @property
    def code(self) -> str:
        return ".".join([self.kind, *self.parts()])

    def parts(self) -> list[str]:
        return [str(getattr(self, field.name)) for field in fields(self)]

    @classmethod
    def from_parts(cls, parts: Sequence[str]) -> Self:
        """What `parts` wrote. ValueError for anything else."""
        wanted = fields(cls)
        if len(parts) != len(wanted):
            raise ValueError("a deed of another shape")
        return cls(*(PARTS[field.type](part) for field, part in zip(wanted, parts, strict=True)))

    @abstractmethod
    def told(self, rows: DeedRows) -> str:
        """What it does, as a sentence without its full stop."""

    @classmethod
    def told_together(cls, deeds: Sequence[Self], rows: DeedRows) -> Iterator[str]:
        """What several of the kind do, in their order."""
        return (deed.told(rows) for deed in deeds)

    def undo(self, rows: DeedRows) -> str:
        """The way back, where it names rows."""
        return self.way_back

    def refusal(self, rows: DeedRows, by: Membership) -> str | None:
        """Why `by` may not do it, as one sentence."""
        return refuse_arranging(by) if self.owner_only else refuse_working(by)

    @abstractmethod
    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        """Do it to the garage. Raises Refused for what cannot be done; who may is asked before."""

    def gives_up(self) -> int | None:
        """The entry (by pk) whose car then stays at home."""
        return None

    def enters(self, rows: DeedRows) -> Entry | None:
        """The entry that there then is besides, not saved."""
        return None

    @classmethod
    def offers(cls, car: LateCar) -> Iterable[Change]:
        """The changes of this kind that are worth a try for the car; their kind is that of the deed."""
        return ()

    @classmethod
    def from_change(cls, change: Change, car: LateCar) -> tuple["Deed", ...]:
        """What has to be done to the garage for a change of this kind."""
        raise TypeError(f"{cls.kind} is never offered")

    @classmethod
    def changes(cls, deeds: Sequence[Self], car: LateCar) -> Iterator[Change]:
        """What these deeds of one kind change for the planner; not all of them change something."""
        for deed in deeds:
            if change := deed.change(car):
                yield change

    def change(self, car: LateCar) -> Change | None:
        """What it changes by itself. ValueError for a kind that is no remedy."""
        raise ValueError(f"{self.kind} is no remedy")


def codes(deeds: Iterable[Deed]) -> str:
    """What a page sends and a trial stores of several."""
    return " ".join(deed.code for deed in deeds)


def title_of(deeds: Iterable[Deed], rows: DeedRows) -> str:
    """What they do, in words."""
    alike = (list(several) for _, several in groupby(deeds, type))
    return "; ".join(told for several in alike for told in several[0].told_together(several, rows))


def cautions_of(deeds: Iterable[Deed]) -> tuple[str, ...]:
    """What to be careful of, each caution once."""
    return tuple(dict.fromkeys(deed.caution for deed in deeds if deed.caution))


def undo_of(deeds: Iterable[Deed], rows: DeedRows) -> str:
    """How they are undone, each way told once."""
    ways = (deed.undo(rows) for deed in deeds)
    return "; ".join(dict.fromkeys(way for way in ways if way))


def refusal_of(deeds: Iterable[Deed], rows: DeedRows, by: Membership) -> str | None:
    """Why `by` may not do all of them: the first reason."""
    refusals = (deed.refusal(rows, by) for deed in deeds)
    return next((refusal for refusal in refusals if refusal), None)
