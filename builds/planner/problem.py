"""What goes into the planner: cars, people, stations, jobs, links, holds, on one axis of slots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from builds.planner.fields import ProblemError, Windows
from builds.planner.means import Person, Station, Vehicle

from . import fields, rules

__all__ = [
    "Hold",
    "Job",
    "Link",
    "Person",
    "Problem",
    "ProblemError",
    "Promise",
    "Station",
    "Vehicle",
]

RANKS = ("safety", "needed", "wanted")
GOALS = ("event", "finish")


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of work; times in slots.

    `work` hands-on slots by `hands` people at once, one of whom has `skill`, using `uses`
    {station: units}. `splits`: may stop at the end of a window and go on in the next one. Not
    before `earliest`, late when it ends after `due`, worked only inside `windows`. `range` is (low,
    likely, high) slots that the odds draw its length from; the plan takes `work`.
    Beyond the contract: `title` for sentences; `crew`, the people a job in hand keeps; `pinned`,
    the only start it may have; `started`, it goes before everything else on its people;
    `waits_for`, in words with their date, what comes at `earliest`; `clears`, slots past its end in which
    its stations stay taken, those apart that cars stand in (paint in the air); `eyes`, people one of whom looks at
    it before what waits for it starts: none of its crew, and in when it ends or later. Empty, or nobody but its crew:
    nobody is waited for.
    """

    id: str
    vehicle: str | None
    rank: str
    work: int
    hands: int
    weight: float = 1
    skill: str | None = None
    uses: Mapping[str, int] = field(default_factory=dict)
    splits: bool = True
    earliest: int = 0
    due: int | None = None
    windows: Windows | None = None
    title: str | None = None
    crew: tuple[str, ...] | None = None
    pinned: int | None = None
    started: bool = False
    waits_for: str | None = None
    range: tuple[float, float, float] | None = None
    clears: int = 0
    eyes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        fields.named(self, "job", "title")
        who = f"Job {self.label}"
        if self.vehicle is not None:
            fields.text(self.vehicle, f"{who}: its vehicle")
        if not isinstance(self.rank, str) or self.rank not in RANKS:
            raise ProblemError(f"{who}: its rank must be one of {', '.join(RANKS)}.")
        fields.whole(self.work, f"{who}: its work", low=0)
        fields.whole(self.hands, f"{who}: its hands", 0, fields.MOST_UNITS)
        fields.weight(self.weight, f"{who}: its weight")
        if self.skill is not None:
            fields.text(self.skill, f"{who}: its skill")
        fields.whole(self.clears, f"{who}: the slots it clears in", low=0)
        fields.flag(self.splits, f"{who}: whether it may be split")
        fields.flag(self.started, f"{who}: whether it is started")
        fields.whole(self.earliest, f"{who}: its earliest start")
        if self.waits_for is not None:
            fields.put(self, waits_for=fields.phrase(self.waits_for, f"{who}: what it waits for"))
        if self.due is not None:
            fields.whole(self.due, f"{who}: its due slot")
        if self.pinned is not None:
            fields.whole(self.pinned, f"{who}: its pinned start", low=0)
        fields.put(
            self,
            uses=fields.amounts(self.uses, f"{who}: the stations it uses"),
            windows=fields.windows(self.windows, f"{who}: the hours it can be worked"),
        )
        if self.range is not None:
            fields.put(self, range=fields.figures(self.range, f"{who}: its range"))
        fields.put(self, eyes=fields.texts(self.eyes, f"{who}: who looks at it"))
        if self.crew is not None:
            fields.put(self, crew=fields.texts(self.crew, f"{who}: its crew"))

    @property
    def must_do(self) -> bool:
        """No car runs before it is done: safety and needed work."""
        return self.rank != "wanted"

    @property
    def label(self) -> str:
        """How sentences call the job: in quotes."""
        return fields.quoted(self.title or self.id)

    @property
    def heading(self) -> str:
        """What it is called where its name stands alone, as in a list."""
        return fields.shown(self.title or self.id)


@dataclass(frozen=True, slots=True)
class Link:
    """`after` starts no sooner than `wait` elapsed slots past the end of `before`.

    Beyond the contract: `ready`, a cure that depends on when it starts: `ready[k]` is the earliest
    start of `after` when `before` ends at slot k, for k = 0 .. slots, never falling and never below
    k + wait (a value past the horizon: not ready within the plan); `why` names the wait.
    """

    before: str
    after: str
    wait: int = 0
    ready: tuple[int, ...] | None = None
    why: str | None = None

    def __post_init__(self) -> None:
        fields.text(self.before, "The job a link starts from")
        fields.text(self.after, "The job a link leads to")
        pair = f"Link {fields.shown(self.before)} -> {fields.shown(self.after)}"
        fields.whole(self.wait, f"{pair}: its wait", low=0)
        if self.why is not None:
            fields.put(self, why=fields.phrase(self.why, f"{pair}: the reason of its wait"))
        if self.ready is not None:
            if not isinstance(self.ready, (list, tuple)):
                raise ProblemError(f"{pair}: its ready times must be a list.")
            fields.put(self, ready=tuple(self.ready))
            rules.ready_table(self, pair)

    def opens(self, end: int) -> int:
        """The first slot in which `after` may start when `before` ends at slot `end`."""
        return end + self.wait if self.ready is None else self.ready[end]


@dataclass(frozen=True, slots=True)
class Hold:
    """From the start of job `start` to the end of job `until`, `vehicle` cannot leave `station`.

    It keeps `units` of it meanwhile, those that its own jobs use there included.
    """

    vehicle: str
    station: str
    start: str
    until: str
    units: int = 1

    def __post_init__(self) -> None:
        fields.text(self.vehicle, "The vehicle of a hold")
        fields.text(self.station, "The station of a hold")
        fields.text(self.start, "The job a hold starts with")
        fields.text(self.until, "The job a hold ends with")
        held = f"The hold of station {fields.shown(self.station)}: its units"
        fields.whole(self.units, held, 0, fields.MOST_UNITS)


@dataclass(frozen=True, slots=True)
class Promise:
    """Where the plan before this one had `job`: its start slot (may be past) and its people."""

    job: str
    start: int
    people: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        fields.text(self.job, "The job of the plan before")
        who = f"The plan before, job {fields.shown(self.job)}"
        fields.whole(self.start, f"{who}: its start")
        fields.put(self, people=fields.texts(self.people, f"{who}: its people"))


@dataclass(frozen=True, slots=True)
class Problem:
    """All of it; refuses with ProblemError whatever does not hang together.

    `slots` is the horizon, `slot_minutes` and `start` (ISO 8601) only place it in the world.
    `goal`: "event" or "finish". `before`: promises made, one a job (jobs that are no longer there
    are passed over); `keep`: how many slots of the summed ends one kept promise is worth.
    """

    slots: int
    jobs: tuple[Job, ...] = ()
    people: tuple[Person, ...] = ()
    stations: tuple[Station, ...] = ()
    vehicles: tuple[Vehicle, ...] = ()
    links: tuple[Link, ...] = ()
    holds: tuple[Hold, ...] = ()
    goal: str = "event"
    slot_minutes: int = 15
    start: str | None = None
    before: tuple[Promise, ...] = ()
    keep: int = 16

    def __post_init__(self) -> None:
        fields.whole(self.slots, "The number of slots", low=1)
        fields.whole(self.slot_minutes, "The minutes of a slot", low=1, high=1440)
        fields.whole(self.keep, "The worth of a kept promise", low=0)
        if not isinstance(self.goal, str) or self.goal not in GOALS:
            raise ProblemError(f"The goal must be one of {', '.join(GOALS)}.")
        if self.start is not None:
            try:
                datetime.fromisoformat(fields.text(self.start, "The start"))
            except ValueError as error:
                raise ProblemError("The start must be an ISO 8601 date and time.") from error
        for name, kind in PARTS.items():
            parts = getattr(self, name)
            if not isinstance(parts, (list, tuple)) or any(type(part) is not kind for part in parts):
                raise ProblemError(f"The {name} of a problem must be a list of {kind.__name__}.")
            fields.put(self, **{name: tuple(parts)})
        rules.hang_together(self)

    def hands_for(self, job: Job) -> list[Person]:
        """Those who work on its car."""
        return [person for person in self.people if job.vehicle is None or job.vehicle not in person.not_on]

    def must_do(self, vehicle: str | None) -> list[Job]:
        """The safety and needed jobs of a car (an id), in the order of the problem."""
        return [job for job in self.jobs if job.vehicle == vehicle and job.must_do]

    @property
    def facts(self) -> frozenset[str]:
        """Jobs that stand for what has begun: of no work and nobody, pinned to slot 0, and a hold starts there.

        A plan may leave none of them out: where two contradict each other, both are as they are.
        """
        later = {link.after for link in self.links}
        here = {job.id for job in self.jobs if job.pinned == 0 and job.earliest <= 0 and not (job.work or job.hands)}
        return frozenset(hold.start for hold in self.holds if hold.start in here - later)


PARTS: dict[str, type] = {
    "jobs": Job,
    "people": Person,
    "stations": Station,
    "vehicles": Vehicle,
    "links": Link,
    "holds": Hold,
    "before": Promise,
}
