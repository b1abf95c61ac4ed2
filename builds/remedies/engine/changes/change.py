"""What every change of a problem can do; a kind of change says what it does otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builds.planner.plan import Plan
from builds.planner.problem import Problem


def changed(problem: Problem, changes: Iterable[Change]) -> Problem:
    """The problem with all of the changes made. KeyError for ids it does not know."""
    for change in changes:
        problem = change.apply(problem)
    return problem


class Change:
    """`kind` is the same for changes that are alike: it is the kind of the deed behind them."""

    __slots__ = ()
    kind: str

    @property
    def effort(self) -> float:
        """Hours of trouble, so that changes can be put in order. An hour that somebody comes is one."""
        raise NotImplementedError

    def apply(self, problem: Problem) -> Problem:
        """The problem with the change made. KeyError for ids it does not know."""
        raise NotImplementedError

    def smaller(self, plan: Plan) -> Iterator[Change]:
        """Changes of the same kind that ask for less, worth a try when this one does it with `plan`."""
        return iter(())

    def puts_off(self) -> frozenset[str]:
        """The wanted jobs (ids) that wait for it: that they are late then is no news."""
        return frozenset()

    def gives_up(self, vehicle: str) -> bool:
        """Whether the car (an id) makes its date only because it has none any more."""
        return False

    def asks_more_than(self, other: Change) -> bool:
        """Whether it asks for all that the other asks for, and so tells nothing new once that does it."""
        return False

    def joins(self, others: Iterable[Change]) -> bool:
        """Whether it adds anything to the others."""
        return self not in others
