"""What is not done on one car, or in one shop, at the same time, by whomever."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Protocol

RUNS = frozenset({"engine_run", "driven"})
HOT = frozenset({"hot_work", "chassis_weld"})
SPARKS = HOT | {"part_weld"}
FUEL_OPEN = frozenset({"fuel_drained", "fuel_line"})
SPRAYS = frozenset({"two_pack"})
WHOLE_CAR = "all"
"""What the rule is about that goes for all of a car; the last to be told where others hold too."""
OUTSIDE = frozenset({"driveway"})
"""Stations (slugs) that share no air with the rest of the shop."""


class OnCar(Protocol):
    """A job as far as what else is done beside it goes: its kinds of work (slugs) and how many hands are in it."""

    @property
    def kinds(self) -> Collection[str]: ...

    @property
    def hands(self) -> int: ...


@dataclass(frozen=True, slots=True)
class Apart:
    """While a job of the kinds `alone` (slugs) is worked on, none of the kinds `rest` is on that car.

    `rest` is None for all that hands are needed for. `what` of the car it is about, and how that is meanwhile:
    `while_alone`, `while_rest`. `ends_at_once`: whoever begins the one has only to put the other down for it.
    `whole_shop`: nor is it on any other car in the shop. `stays`: it is how the car stands, in hand or put down,
    until the job is done, and as many cars stand so as will. Source: common practice, no source.
    """

    what: str
    alone: frozenset[str]
    rest: frozenset[str] | None
    why: str
    while_alone: str
    while_rest: str
    ends_at_once: bool = True
    whole_shop: bool = False
    stays: bool = False

    def called(self, car: str) -> str:
        """`the engine of Wren`, of the car of that name; `Wren` for all of it, `the shop` for that of no car."""
        if self.what == WHOLE_CAR:
            return car.strip()
        return f"the {self.what}" if self.whole_shop and not self.stays else f"the {self.what} of {car.strip()}"

    def is_alone(self, job: OnCar) -> bool:
        return not self.alone.isdisjoint(job.kinds)

    def is_rest(self, job: OnCar) -> bool:
        return job.hands > 0 if self.rest is None else not self.rest.isdisjoint(job.kinds)

    def meets(self, *, same_car: bool, inside: bool) -> bool:
        """Whether it goes for two jobs: on one car or not, and both of them done `inside` the shop or not."""
        return (same_car and (self.stays or not self.whole_shop)) or (inside and self.whole_shop)

    def leaves_open(self, job: OnCar) -> bool:
        """Whether the car stands as it does meanwhile when the job was begun and is put down."""
        return self.stays and self.is_alone(job)

    def keeps_apart(self, one: OnCar, other: OnCar) -> bool:
        return (self.is_alone(one) and self.is_rest(other)) or (self.is_rest(one) and self.is_alone(other))


APART = (
    Apart("engine", RUNS, None, "nobody has his hands in a car whose engine runs", "runs", "stays off"),
    # A weld that was put down a moment ago is still hot, a line that was put down is still open.
    Apart(
        "fuel",
        FUEL_OPEN,
        SPARKS,
        "no sparks near open fuel",
        "is open",
        "stays closed",
        ends_at_once=False,
        whole_shop=True,
        stays=True,
    ),
    # Whoever welds puts it down himself; nobody else is under, in or beside the car meanwhile.
    Apart(
        WHOLE_CAR,
        HOT,
        None,
        "nobody else has his hands in a car on which sparks fly",
        "has sparks flying on it",
        "is worked on",
    ),
    Apart(
        "shop",
        SPRAYS,
        None,
        "nobody else works in the shop while two-pack paint is sprayed, and the sheet of the paint says how long after",
        "has two-pack paint in the air",
        "is worked in",
        whole_shop=True,
    ),
)
