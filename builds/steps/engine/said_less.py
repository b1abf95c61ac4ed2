"""What is said of work less than was likely, or than stood there: what it would have spoilt, and when that asks why."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from builds.readings.engine.kinds_of_work import KINDS, disturbed_by, voided_by
from builds.steps.engine.opened import WHY_NOTHING
from garage.engine.systems import SYSTEM_LABELS

WHY_LESS = "Say in words why this was not: {}."


@dataclass(frozen=True, slots=True)
class OnRecord:
    """What a car has on record: the readings (slugs) taken of it, and of each joint the kinds of work that open it."""

    readings: frozenset[str] = frozenset()
    joints: tuple[frozenset[str], ...] = ()


@dataclass(frozen=True, slots=True)
class LessSaid:
    """What a finish says less: that `nothing` of its systems was opened, or which `kinds`, which `systems` (slugs)."""

    nothing: bool = False
    kinds: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()

    @property
    def asks(self) -> str:
        """What is asked for in words; empty where nothing is."""
        if self.nothing:
            return WHY_NOTHING
        return WHY_LESS.format(less_words(self.kinds, self.systems)) if self.kinds or self.systems else ""


def missed(off: Iterable[str], said: Collection[str], there: OnRecord) -> tuple[str, ...]:
    """Of kinds of work (slugs) that were `off` those by which something `there` goes void that the `said` ones leave.

    ValueError for an unknown kind. Whoever says that work on a tie rod turned nothing keeps a toe that nobody has
    measured since: that wants his word. Trade rule, common practice, no source.
    """
    spoilt = voided_by(said)
    opened = [joint for joint in there.joints if said and not disturbed_by(joint).isdisjoint(said)]
    closed = [disturbed_by(joint) for joint in there.joints if joint not in opened]
    return tuple(
        kind
        for kind in KINDS
        if kind in {*off}
        and ((voided_by([kind]) - spoilt) & there.readings or any(kind in opening for opening in closed))
    )


def less_words(kinds: Iterable[str], systems: Iterable[str] = ()) -> str:
    """`jam nut slackened, tie rod turned; brakes`: kinds of work and systems (slugs), as they are called."""
    labels = [*(KINDS[kind].label for kind in kinds), *(SYSTEM_LABELS[system] for system in systems)]
    return "; ".join(label[0].lower() + label[1:] for label in labels)
