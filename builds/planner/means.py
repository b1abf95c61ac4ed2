"""Who and what work is done with: cars, people, stations."""

from __future__ import annotations

from dataclasses import dataclass

from builds.planner import fields
from builds.planner.fields import Windows


@dataclass(frozen=True, slots=True)
class Vehicle:
    """A car. `weight` is how much it matters that it makes its event; `name` is for sentences."""

    id: str
    weight: float = 1
    name: str | None = None

    def __post_init__(self) -> None:
        who = fields.named(self, "vehicle", "name")
        fields.weight(self.weight, f"{who}: its weight")


@dataclass(frozen=True, slots=True)
class Person:
    """Someone who works: skills by name, the slots of presence (None is always), cars (ids) that he does `not_on`."""

    id: str
    skills: tuple[str, ...] = ()
    windows: Windows | None = None
    name: str | None = None
    not_on: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        who = fields.named(self, "person", "name")
        fields.put(
            self,
            skills=fields.texts(self.skills, f"{who}: the skills"),
            not_on=fields.texts(self.not_on, f"{who}: the cars not worked on"),
            windows=fields.windows(self.windows, f"{who}: the hours"),
        )


@dataclass(frozen=True, slots=True)
class Station:
    """A place or machine that jobs use `capacity` units of, in its open slots (None is always).

    `stands`: a car that uses it stands in it, and so in no other such station at the same time.
    """

    id: str
    capacity: int = 1
    windows: Windows | None = None
    name: str | None = None
    stands: bool = False

    def __post_init__(self) -> None:
        who = fields.named(self, "station", "name")
        fields.whole(self.capacity, f"{who}: its capacity", 0, fields.MOST_UNITS)
        fields.flag(self.stands, f"{who}: whether a car stands in it")
        fields.put(self, windows=fields.windows(self.windows, f"{who}: the hours"))
