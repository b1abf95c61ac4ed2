"""A job on a car as the order of work sees it, and the steps of the measuring chain.

Common practice, no published source: on its wheels, pressures and load as raced, ride height, rack
centred, camber and caster near the figure, bump steer, corner weights, camber and caster trimmed,
rear toe, front toe, wheel torque, full lock and clearance, driven.
"""

from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property

from builds.work.engine.apart import RUNS


class ChainStep(IntEnum):
    """A step of the measuring chain; a later one may disturb an earlier one and takes it again."""

    ON_WHEELS = 0
    LOADED = 1
    HEIGHT = 2
    RACK = 3
    COARSE = 4
    BUMP = 5
    WEIGHED = 6
    TRIMMED = 7
    REAR_TOE = 8
    FRONT_TOE = 9
    TORQUED = 10
    LOCKS = 11
    DRIVEN = 12


_TAKEN_AT: dict[ChainStep, str] = {
    ChainStep.LOADED: "tyre_pressures",
    ChainStep.HEIGHT: "ride_height",
    ChainStep.BUMP: "bump_steer",
    ChainStep.WEIGHED: "corner_weights cg_height",
    ChainStep.TRIMMED: "camber caster",
    ChainStep.REAR_TOE: "toe_rear",
    ChainStep.FRONT_TOE: "toe_front",
    ChainStep.TORQUED: "wheel_torque",
    ChainStep.LOCKS: "lock_angles ackermann toggle_check lock_clearance hose_check",
    ChainStep.DRIVEN: "pad_bedding",
}
STAGE: dict[str, ChainStep] = {slug: step for step, slugs in _TAKEN_AT.items() for slug in slugs.split()}

ON_WHEELS, DRIVES, CENTRES = "wheels_on", "driven", "rack_moved"  # kinds of work that are steps themselves
COARSE = frozenset({"camber_front", "caster"})  # turned far enough that bump steer is read after it
# These are not work of hands on the car: they only say that it ran, or what was written down.
NO_WORK = RUNS | {"first_run", "part_pulled", "job_reopened"}


@dataclass(frozen=True)
class CarJob:
    """A job still to do on the car: its kinds of work, systems and the readings it takes (slugs).

    `again` takes what is left over once all is done, and is nobody's *before* reading. `faulty` when its own
    words say that something is not as it must be, `guessed` when nobody has said its kinds of work outright;
    `by_hand` when it is no step of a recipe: what it takes apart it puts together; `fits` when the words of such a one
    have something go into the car, `comes_out` when they have it come off or out; `seen_rolling` when somebody looks,
    at its end, at what only a car on its wheels shows; `corner` the ends and sides that its title names. `unsaid` when
    it works on the car and nobody knows how; `cures` when nobody works on it and paint of the body cures meanwhile;
    `when` its words say that it is done (`when_said`).
    """

    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    again: bool = False
    faulty: bool = False
    guessed: bool = False
    by_hand: bool = False
    fits: bool = False
    comes_out: bool = False
    seen_rolling: bool = False
    corner: frozenset[str] = frozenset()
    unsaid: bool = False
    cures: bool = False
    when: str = ""

    @cached_property
    def stages(self) -> tuple[ChainStep, ...]:
        """Where it stands in the chain, lowest first; nothing for work outside it."""
        steps = {STAGE[slug] for slug in self.measures if slug in STAGE}
        if DRIVES in self.kinds:
            steps.add(ChainStep.DRIVEN)
        if self.kinds == (CENTRES,) and not steps:
            steps.add(ChainStep.RACK)
        if (
            max(steps, default=None) == ChainStep.TRIMMED
            and ChainStep.WEIGHED not in steps
            and COARSE.intersection(self.kinds)
        ):
            steps = steps - {ChainStep.TRIMMED} | {ChainStep.COARSE}
        if ON_WHEELS in self.kinds and ChainStep.DRIVEN not in steps:
            return (ChainStep.ON_WHEELS,)
        return tuple(sorted(steps))

    @cached_property
    def step(self) -> ChainStep | None:
        """A job of several steps stands where its last one does."""
        return max(self.stages, default=None)

    @cached_property
    def works(self) -> frozenset[str]:
        """Its kinds that are work of hands on the car."""
        return frozenset(self.kinds) - NO_WORK

    @property
    def runs(self) -> bool:
        return not RUNS.isdisjoint(self.kinds)

    def does(self, kinds: frozenset[str]) -> bool:
        return not kinds.isdisjoint(self.kinds)

    def takes(self, readings: frozenset[str]) -> bool:
        return not readings.isdisjoint(self.measures)

    def touches(self, systems: frozenset[str]) -> bool:
        return not systems.isdisjoint(self.systems)
