"""Writes made without signal, met with what others wrote meanwhile: which stands."""

from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo

from garage.engine.moments import dated_words
from garage.engine.said import says_unit

# What a state weighs against another one that somebody else set meanwhile: a signature before all,
# a fail before a pass. Common practice, no source: the worse news is the safer one to believe.
WEIGHT = {
    "open": 0,
    "ticked": 1,
    "left_out": 1,
    "packed": 1,
    "left": 1,
    "marked": 1,
    "taken": 1,
    "said": 1,
    "failed": 2,
    "signed": 3,
}
PRESSURES = "tyre_pressures"
# What is added to what was there before, and takes nothing away: two readings are two readings.
ADDED = ("taken", "said")
DID = {
    "open": "took it back",
    "ticked": "ticked it",
    "left_out": "said that it does not apply",
    "packed": "packed it",
    "left": "left it behind",
    "marked": "marked it",
    "taken": "measured it",
    "said": "said something of it",
    "failed": "failed it",
    "signed": "signed it",
}


@dataclass(frozen=True, slots=True)
class Write:
    """An item, the state wanted, by someone who saw version `seen` of it, at the phone's time.

    `value` was typed where the page asked for it in `unit` (a symbol): the garage may read in others by now.
    `wrench` is what a joint was torqued with, empty where nobody said so.
    """

    item: str
    to: str
    seen: int
    at: datetime
    value: str = ""
    note: str = ""
    unit: str = ""
    wrench: str = ""

    def value_in(self, unit: str) -> str:
        """What was typed, with the unit that the page asked for beside it where that is another than this one."""
        bare = self.unit and self.unit != unit and self.value.strip() and not says_unit(self.value)
        return f"{self.value.strip()} {self.unit}" if bare else self.value


@dataclass(frozen=True, slots=True)
class ItemStanding:
    """An item now: `version` counts the writes to it; the rest tells of the last: who, what and when (aware)."""

    version: int
    state: str
    who: str = ""
    when: datetime | None = None
    zone: tzinfo = UTC
    what: str = ""


@dataclass(frozen=True, slots=True)
class WriteOutcome:
    """What to do with a write: apply it or not, and what a person has to be told, if anything.

    `clash` when the write does not stand although it was meant.
    """

    apply: bool
    told: str = ""
    clash: bool = False


def merge(now: ItemStanding, seen: int, to: str, *, differs: bool = False) -> WriteOutcome:
    """A write that sets the state `to`, made by someone who saw version `seen`.

    `differs` when it is to the state that stands, with another figure: two torques are a clash.
    States are the keys of WEIGHT; KeyError for another. Nobody's write is overwritten in silence:
    what is not heavier than the state it meets is a clash, what is heavier stands and says so.
    """
    if seen == now.version or to in ADDED:
        return WriteOutcome(apply=True)
    if to == now.state and not differs:
        return WriteOutcome(apply=False)
    when = dated_words(now.when, now.zone) if now.when else ""
    did = ", ".join(filter(None, [f"{now.who or 'Somebody'} {DID[now.state]}", now.what, when]))
    if WEIGHT[to] > WEIGHT[now.state]:
        return WriteOutcome(apply=True, told=f"{did}. Yours stands now.")
    return WriteOutcome(
        apply=False,
        told=f"{did} meanwhile. That stands: look again, then say so once more.",
        clash=True,
    )
