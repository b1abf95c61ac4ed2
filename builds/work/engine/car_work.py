"""Work that touched a car, its running among it, as joints and lists are judged by it."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, tzinfo

from builds.work.engine.running import Run

SKIN = frozenset({"body", "paint", "glass"})
# The kind of work that running is: what names it is looked at again after a run.
RUNNING = "first_run"


@dataclass(frozen=True, slots=True)
class CarWork:
    """Work that touched the car: finished, or put down, or in hand still (`ended` None).

    `ended` is aware, in the garage's own zone, since sentences name its day. `wanted` work on the
    skin, polishing and its like, says nothing of doors, bulkheads or towing eyes. Running is work of the
    kind `first_run` with `words` of its own; `unsaid` when nobody has said whether the car ran. `off` when
    it gives back a part that is off the car. What was only `seen`, such as a nut that was loose, has `words` too.
    """

    title: str
    systems: frozenset[str]
    kinds: frozenset[str]
    ended: datetime | None
    wanted: bool = False
    words: str = ""
    unsaid: bool = False
    off: bool = False
    seen: bool = False

    @property
    def day(self) -> str:
        """The day on which it ended, such as `12 Nov`; empty while it is in hand."""
        return f"{self.ended.day} {self.ended:%b}" if self.ended else ""

    @property
    def not_over(self) -> str:
        """How it stands until it is over."""
        return "is not done: a part is off the car" if self.off else "is in hand"

    def touches(self, systems: Collection[str], kinds: Collection[str]) -> bool:
        """Whether it touched a thing of these systems, or one that these kinds of work disturb."""
        own = self.systems - SKIN if self.wanted else self.systems
        return not own.isdisjoint(systems) or not self.kinds.isdisjoint(kinds)


def ran_work(run: Run, zone: tzinfo) -> Iterator[CarWork]:
    """That a car ran, or may have run, by the clock of that zone: from its beginning, and again from its end."""
    for moment in dict.fromkeys([run.since, run.last]):
        since = moment.astimezone(zone)
        day = f"{since.day} {since:%b}"
        words = f"It ran {run.where} on {day}."
        if not run.told:
            words = f"{run.event} was over on {day}, and nobody has said whether the car ran."
        yield CarWork(run.event, frozenset(), frozenset({RUNNING}), since, words=words, unsaid=not run.told)


def since(works: Iterable[CarWork], moment: datetime | None) -> list[CarWork]:
    """Those whose hands left later, or that are in hand."""
    return [work for work in works if work.ended is None or moment is None or work.ended > moment]
