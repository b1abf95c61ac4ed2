"""What the verdict is told of one car, and nothing else."""

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from builds.gear.engine import GearFact
from builds.readings.engine.kinds_touch import touched
from builds.steps.engine.opened import opens_nothing_of
from builds.verdict.engine.records import (
    CheckFact,
    CureFact,
    DoubtFact,
    JointFact,
    PartFact,
    ReadingFact,
    StaleList,
    WeldFact,
)
from garage.engine.reasons import says_why
from garage.engine.systems import SAFETY_SYSTEMS


@lru_cache(maxsize=4096)
def _touches_safety(systems: tuple[str, ...], kinds: tuple[str, ...]) -> bool:
    return not SAFETY_SYSTEMS.isdisjoint(touched(systems, kinds))


@dataclass(frozen=True, slots=True)
class JobFact:
    """A job as the verdict sees it; `worked` when somebody has had it in hand at any time.

    `opens` unless it came from a recipe that says that it takes nothing apart: put down half done it
    leaves no joint loose. `nothing_because` says why it opened nothing, or less than was likely or stood there:
    neither these kinds of work (`not_opened`) nor these systems (`not_touched`). `ended` is when it was finished.
    `covered` when it came from a recipe and leaves no joint, or one that a hold point after it looks
    at. `whole_because` says, once it was dropped, why the car is as it was, or does without `off`, the part
    that came off and that the job gives back (its name, empty where none is off). `fault` when it was
    found, or failed, or its words say that something is not as it must be. `unsaid` when nobody has said
    what it touches, and it measures nothing. `was_called` what it said before its title said less. Of one that was
    dropped `ended` is when, `dropped_because` why, `dropped_by` who. `names_nothing` when its words
    name nothing, whatever somebody said of it since. `apart` when something of it is off the car while it is half done.
    `gear_off` is the gear that came off the car, where the job fits another and nobody has begun it.
    """

    id: int
    title: str
    rank: str
    state: str
    systems: tuple[str, ...] = ()
    worked: bool = False
    covered: bool = False
    lowered_because: str = ""
    was_safety: bool = False
    opens: bool = True
    kinds: tuple[str, ...] = ()
    whole_because: str = ""
    off: str = ""
    nothing_because: str = ""
    not_opened: tuple[str, ...] = ()
    not_touched: tuple[str, ...] = ()
    ended: datetime | None = None
    fault: bool = False
    unsaid: bool = False
    was_called: str = ""
    dropped_because: str = ""
    dropped_by: str = ""
    names_nothing: bool = False
    apart: bool = False
    gear_off: str = ""

    @property
    def called(self) -> str:
        """`“Wash the mats” (was “Two nuts missing”)`."""
        return f"“{self.title}”" + (f" (was “{self.was_called}”)" if self.was_called else "")

    @property
    def wants_eyes(self) -> bool:
        """Somebody else looks at it once it is done: it is for safety, or was seen and may be anything."""
        return self.safety or (self.fault and self.unsaid)

    @property
    def opened_less(self) -> bool:
        """It opened something, and less than was likely or than stood there; else nothing at all, as somebody says."""
        less = bool(self.not_opened or self.not_touched)
        return less and not opens_nothing_of((*self.systems, *self.not_touched), self.kinds)

    @property
    def given_up(self) -> bool:
        """Somebody saw it, or its words say that something is wrong, and it was dropped without being done.

        What was left half done is a reason of its own, what stays off by the owner's word is told as that.
        """
        return self.state == "dropped" and self.fault and not (self.left_half_done or self.done_without)

    @property
    def grave(self) -> bool:
        """It may be anything that lives hang on: nobody has looked at it, or its words name nothing."""
        return self.wants_eyes or self.names_nothing

    @property
    def left_faulty(self) -> bool:
        """Something is wrong that somebody ranks wanted: no reason, and never unsaid. Safety is told as `lowered`."""
        return self.fault and self.unfinished and self.counts_as == "wanted" and not self.lowered

    @property
    def touches_safety(self) -> bool:
        return _touches_safety(self.systems, self.kinds)

    @property
    def safety(self) -> bool:
        """By rank, by what it touches or opens, or because it once was: a lowered rank does not tighten a joint."""
        return self.rank == "safety" or self.touches_safety or self.was_safety

    @property
    def unfinished(self) -> bool:
        return self.state in ("open", "in_hand", "waiting", "held")

    @property
    def looked_for(self) -> bool:
        """Its work is over, and stopped at a hold point: nothing is left but a look."""
        return self.state == "held" and self.ended is not None

    @property
    def begun(self) -> bool:
        return self.unfinished and (self.worked or self.state == "in_hand")

    @property
    def left_half_done(self) -> bool:
        """Dropped with hands on it, or with its part off the car, and nobody has answered for the car."""
        return self.state == "dropped" and bool(self.worked or self.off) and not self.whole_because

    @property
    def done_without(self) -> bool:
        """Its part stays off by the owner's word."""
        return self.state == "dropped" and bool(self.off and self.whole_because)

    @property
    def counts_as(self) -> str:
        """Its rank; lowered below what it touches without a written reason, it stays safety."""
        if (self.touches_safety or self.was_safety) and not says_why(self.lowered_because):
            return "safety"
        return self.rank

    @property
    def must_do(self) -> bool:
        """The car is not fit before it is done."""
        return self.counts_as != "wanted"

    @property
    def lowered(self) -> bool:
        return (self.touches_safety or self.was_safety) and self.counts_as != "safety"

    @property
    def lowered_from(self) -> str:
        """The rank below which somebody put it with a reason, if any."""
        if self.lowered:
            return "safety"
        return "needed" if self.rank == "wanted" and says_why(self.lowered_because) else ""


@dataclass(frozen=True, slots=True)
class HoldFact:
    """A hold point that nobody has signed."""

    job: int
    what: str


@dataclass(frozen=True, slots=True)
class AheadFact:
    """A job that was signed, or a hold point of it, for a day that is still to come."""

    job: int
    title: str


@dataclass(frozen=True, slots=True)
class StripFact:
    """A stretch of work during which the car is stripped and holds a station.

    `freed` says why the station was freed all the same; the car is no less stripped.
    """

    first: int
    last: int
    station: str
    freed: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of one car at a moment: jobs of every state, unsigned hold points, strips.

    `alone` has a name for every point that nobody signed but one who had worked on it; `unlooked` are systems (slugs)
    of every car that an organiser's list alone says nothing of; `reads_nothing` when the owner asks for no reading.
    `unknown` holds what nobody has recorded, of `NOT_RECORDED`; it never counts as good.
    """

    vehicle: int
    at: datetime
    standing: str
    jobs: tuple[JobFact, ...] = ()
    holds: tuple[HoldFact, ...] = ()
    strips: tuple[StripFact, ...] = ()
    welds: tuple[WeldFact, ...] = ()
    joints: tuple[JointFact, ...] = ()
    readings: tuple[ReadingFact, ...] = ()
    gear: tuple[GearFact, ...] = ()
    parts: tuple[PartFact, ...] = ()
    doubted: tuple[DoubtFact, ...] = ()
    cures: tuple[CureFact, ...] = ()
    ahead: tuple[AheadFact, ...] = ()
    checks: tuple[CheckFact, ...] = ()
    stale_list: StaleList | None = None
    alone: tuple[str, ...] = ()
    unlooked: tuple[str, ...] = ()
    reads_nothing: bool = False
    unknown: tuple[str, ...] = ()

    def follows_clock(self) -> bool:
        """Whether something in it was written down for later than its moment."""
        dated = [fact.since for facts in (self.readings, self.joints, self.checks) for fact in facts]
        return bool(self.ahead) or any(since and since > self.at for since in dated)
