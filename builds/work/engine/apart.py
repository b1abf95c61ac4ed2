"""What is not done on one car, or in one shop, at the same time, by whomever."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Protocol

RUNS = frozenset({"engine_run", "driven"})
HOT = frozenset({"hot_work", "chassis_weld"})
SPARKS = HOT | {"part_weld"}
FUEL_OPEN = frozenset({"fuel_drained", "fuel_line"})
FUEL = "fuel"
PULLED = "part_pulled"
SPRAYS = frozenset({"two_pack"})
AIR_MINUTES = 30
"""A guess, and the least: the sheet of the paint says how long, and no product here carries it."""
WHOLE_CAR = "all"
"""What the rule is about that goes for all of a car; the last to be told where others hold too."""
OUTSIDE = frozenset({"driveway"})
"""Stations (slugs) that share no air with the rest of the shop."""


class OnCar(Protocol):
    """A job as far as what else is done beside it goes: its kinds of work (slugs) and how many hands are in it.

    `found_open`: the fuel of its car is open before anybody begins it.
    """

    @property
    def kinds(self) -> Collection[str]: ...

    @property
    def hands(self) -> int: ...

    @property
    def found_open(self) -> bool: ...


def found_open(systems: Collection[str], kinds: Collection[str], *, faulty: bool) -> bool:
    """Whether the fuel of its car is open from the moment the job is written down.

    Somebody says that it drips (`faulty`), or a part of it was taken off. Source: common practice, no source.
    """
    if FUEL not in systems or not SPARKS.isdisjoint(kinds):
        return False
    return faulty or (PULLED in kinds and not FUEL_OPEN.isdisjoint(kinds))


@dataclass(frozen=True, slots=True)
class Apart:
    """While a job of the kinds `alone` (slugs) is worked on, none of the kinds `rest` is on that car.

    `rest` is None for all that hands are needed for. `what` of the car it is about, and how that is meanwhile:
    `while_alone`, `while_rest`. `ends_at_once`: whoever begins the one has only to put the other down for it.
    `whole_shop`: nor is it on any other car in the shop. It `clears` in so many minutes once the one is over or put
    down. `stays`: it is how the car stands, in hand or put down, until the job is done, and as many cars stand so as
    will; what was found open stands so before it is begun. Source: common practice, no source.
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
    clears: int = 0

    def called(self, car: str) -> str:
        """`the engine of Wren`, of the car of that name; `Wren` for all of it, `the shop` for that of no car."""
        if self.what == WHOLE_CAR:
            return car.strip()
        return f"the {self.what}" if self.whole_shop and not self.stays else f"the {self.what} of {car.strip()}"

    def is_alone(self, job: OnCar) -> bool:
        return not self.alone.isdisjoint(job.kinds) or (self.stays and job.found_open)

    def is_rest(self, job: OnCar) -> bool:
        return job.hands > 0 if self.rest is None else not self.rest.isdisjoint(job.kinds)

    def meets(self, *, same_car: bool, inside: bool) -> bool:
        """Whether it goes for two jobs: on one car or not, and both of them done `inside` the shop or not."""
        return (same_car and (self.stays or not self.whole_shop)) or (inside and self.whole_shop)

    def leaves_open(self, job: OnCar, *, begun: bool) -> bool:
        """Whether the car stands as it does meanwhile with nobody at the job, which was `begun` and put down or not."""
        return self.stays and self.is_alone(job) and (begun or job.found_open)

    def bars(self, left: OnCar, job: OnCar, *, begun: bool) -> bool:
        """Whether the job is not begun while the other, `begun` or not, leaves its car open; sparks bar none."""
        return self.leaves_open(left, begun=begun) and self.is_rest(job)

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
        "nobody else works in the shop while two-pack paint is sprayed, and until the air has cleared",
        "has two-pack paint in the air",
        "is worked in",
        whole_shop=True,
        clears=AIR_MINUTES,
    ),
)
LEAVES_OPEN = frozenset[str]().union(*(rule.alone for rule in APART if rule.stays))
"""Kinds of work that leave a car as it is meanwhile when they are put down."""
