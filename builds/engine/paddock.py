"""Writes made without signal, met with what others wrote meanwhile: which stands."""

from dataclasses import dataclass

# What a state weighs against another one that somebody else set meanwhile: a signature before all,
# a fail before a pass. Common practice, no source: the worse news is the safer one to believe.
WEIGHT = {"open": 0, "ticked": 1, "away": 1, "marked": 1, "failed": 2, "signed": 3}
WORDS = {
    "open": "took it back",
    "ticked": "ticked it",
    "away": "said that it does not apply",
    "marked": "marked it",
    "failed": "failed it",
    "signed": "signed it",
}


@dataclass(frozen=True, slots=True)
class Standing:
    """An item now: `version` counts the writes to it, `who` and `when` (words) say the last one."""

    version: int
    state: str
    who: str = ""
    when: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What to do with a write: apply it or not, and what a person has to be told, if anything.

    `clash` when the write does not stand although it was meant.
    """

    apply: bool
    told: str = ""
    clash: bool = False


def merge(now: Standing, seen: int, to: str) -> Outcome:
    """A write that sets the state `to`, made by someone who saw version `seen`.

    States are the keys of WEIGHT; KeyError for another. Nobody's write is overwritten in
    silence: what is lighter than the state it meets is a clash, what is heavier stands and says so.
    """
    if seen == now.version:
        return Outcome(apply=True)
    if to == now.state:
        return Outcome(apply=False)
    did = f"{now.who or 'Somebody'} {WORDS[now.state]}{f', {now.when}' if now.when else ''}"
    if WEIGHT[to] > WEIGHT[now.state]:
        return Outcome(apply=True, told=f"{did}. It stands {to} now.")
    return Outcome(
        apply=False,
        told=f"{did} meanwhile. That stands: look again, then say so once more.",
        clash=True,
    )
