"""Which work is not left half done: a weld, a bond, paint, a row of bolts that are torqued one after another."""

from collections.abc import Collection
from typing import Protocol

from builds.work.engine.apart import SPRAYS

_COATS = ("paint", "paint_under_joint", "two_pack")
# Common practice, no source: a joint half welded, half bonded or half painted is done again.
WHOLE = frozenset({"part_weld", "chassis_weld", "hot_work", "glass_bonding", "glued", *_COATS})
PAINTED = frozenset({"paint", "paint_under_joint"}) | SPRAYS
# Sprayed without a stop, since nobody else works in the shop meanwhile; the rest may take several days.
IN_ONE_GO = SPRAYS
TORQUED = frozenset({"wheel_torque", "joint_torque", "belt_torque"})


class Kept(Protocol):
    """A job: its kinds of work and the readings it takes (slugs), and whether it may go on another day."""

    @property
    def kinds(self) -> Collection[str]: ...

    @property
    def measures(self) -> Collection[str]: ...

    @property
    def splits(self) -> bool: ...


def is_kept_whole(job: Kept) -> bool:
    """Whether it is put down only by whoever says so, and not because something else is begun."""
    if not WHOLE.isdisjoint(job.kinds):
        return True
    return not job.splits and not TORQUED.isdisjoint(job.measures)


def only_measures(job: Kept) -> bool:
    """Whether it takes readings and works on nothing.

    Common practice, no source: nobody weighs half a car on Tuesday and the rest on Wednesday.
    """
    return bool(job.measures) and not job.kinds


def in_one_sitting(job: Kept) -> bool:
    """Whether it is done in one go where any session is as long as it takes: what measures, and paint."""
    return only_measures(job) or not PAINTED.isdisjoint(job.kinds)


def may_split(job: Kept) -> bool:
    """Whether the plan may put it down and go on another day."""
    return job.splits and IN_ONE_GO.isdisjoint(job.kinds)
