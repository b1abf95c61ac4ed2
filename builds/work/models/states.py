"""The states of a job, and every step between them, as a table."""

from typing import NamedTuple

from django.db import models


class State(models.TextChoices):
    OPEN = "open", "open"
    IN_HAND = "in_hand", "in hand"
    WAITING = "waiting", "put down"
    HELD = "held", "held"
    DONE = "done", "done, not signed"
    SIGNED = "signed", "signed"
    DROPPED = "dropped", "dropped"


OPEN_STATES = [State.OPEN, State.IN_HAND, State.WAITING, State.HELD]
STARTED_STATES = [State.IN_HAND, State.WAITING, State.HELD]
FINISHED_STATES = [State.DONE, State.SIGNED]


class Step(NamedTuple):
    """From any of `before` to `after`; `verb` names it in a refusal."""

    before: tuple[State, ...]
    after: State
    verb: str


STEPS: dict[str, Step] = {
    "start": Step((State.OPEN, State.WAITING), State.IN_HAND, "start"),
    "stop": Step((State.IN_HAND,), State.WAITING, "put down"),
    "hold": Step((State.OPEN, State.IN_HAND, State.WAITING), State.HELD, "hold"),
    "release": Step((State.HELD,), State.WAITING, "release"),
    "finish": Step((State.OPEN, State.IN_HAND, State.WAITING), State.DONE, "finish"),
    "sign": Step((State.DONE,), State.SIGNED, "sign"),
    "reopen": Step((State.DONE, State.SIGNED, State.DROPPED), State.OPEN, "reopen"),
    "drop": Step((State.OPEN, State.IN_HAND, State.WAITING, State.HELD), State.DROPPED, "drop"),
}


def refusal(step: str, state: str) -> str | None:
    """Why a job in this state cannot take this step, or None when it can."""
    row = STEPS[step]
    if state in row.before:
        return None
    *others, last = [State(each).label for each in row.before]
    wanted = f"{', '.join(others)} or {last}" if others else last
    return f"To {row.verb} a job it must be {wanted}; this one is {State(state).label}."
