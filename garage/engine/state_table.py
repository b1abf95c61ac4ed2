"""A state machine as a table: steps from some states to another, and why a step is refused."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from garage.engine.words import listed_in_words

S = TypeVar("S", bound=str)


@dataclass(frozen=True, slots=True)
class Step(Generic[S]):
    """From any of the states `before` to the state `after`; `verb` names it in a refusal."""

    before: tuple[S, ...]
    after: S
    verb: str


@dataclass(frozen=True, slots=True)
class StateTable(Generic[S]):
    """Every step by its name, and each state in words.

    `sentence` is what a refusal says, with places for {verb}, {wanted} and {state}. A state named in
    `stuck` has a refusal of its own instead, whatever the step.
    """

    labels: Mapping[Any, str]
    steps: Mapping[str, Step[S]]
    sentence: str
    stuck: Mapping[Any, str] = field(default_factory=dict)

    def allows(self, step: str, state: str) -> bool:
        """Whether something in this state can take this step. KeyError for an unknown step."""
        return state in self.steps[step].before

    def after(self, step: str) -> S:
        """The state to which a step leads. KeyError for an unknown step."""
        return self.steps[step].after

    def refusal(self, step: str, state: str) -> str | None:
        """Why something in this state cannot take this step, in one sentence; None when it can.

        KeyError for an unknown step, and for an unknown state when it is refused.
        """
        if self.allows(step, state):
            return None
        if state in self.stuck:
            return self.stuck[state]
        row = self.steps[step]
        wanted = listed_in_words([self.labels[before] for before in row.before], "or")
        return self.sentence.format(verb=row.verb, wanted=wanted, state=self.labels[state])


def moved_on(what: str, labels: Mapping[Any, str], seen: str, state: str) -> str | None:
    """Why a button that was drawn in the state `seen` does nothing in this one; None where nothing has moved."""
    if seen == state:
        return None
    was = f", and was {labels[seen]}" if seen in labels else ", and was not"
    return f"{what} is {labels[state]} now{was} when this was drawn. Nothing is done: look again."
