"""The states of a job, and every step between them, as a table."""

from django.db import models

from builds.work.engine.state_words import STATE_WORDS
from garage.engine.state_table import StateTable, Step


class State(models.TextChoices):
    OPEN = "open", STATE_WORDS["open"]
    IN_HAND = "in_hand", STATE_WORDS["in_hand"]
    WAITING = "waiting", STATE_WORDS["waiting"]
    HELD = "held", STATE_WORDS["held"]
    DONE = "done", STATE_WORDS["done"]
    SIGNED = "signed", STATE_WORDS["signed"]
    DROPPED = "dropped", STATE_WORDS["dropped"]


OPEN_STATES = [State.OPEN, State.IN_HAND, State.WAITING, State.HELD]
STARTED_STATES = [State.IN_HAND, State.WAITING, State.HELD]
BEGINNABLE = (State.OPEN, State.WAITING)
FINISHED_STATES = [State.DONE, State.SIGNED]


JOB_STATES = StateTable(
    labels=STATE_WORDS,
    steps={
        "start": Step((State.OPEN, State.WAITING), State.IN_HAND, "start"),
        "stop": Step((State.IN_HAND,), State.WAITING, "put down"),
        "hold": Step((State.OPEN, State.IN_HAND, State.WAITING), State.HELD, "hold"),
        "release": Step((State.HELD,), State.WAITING, "release"),
        "finish": Step((State.OPEN, State.IN_HAND, State.WAITING), State.DONE, "finish"),
        "sign": Step((State.DONE,), State.SIGNED, "sign"),
        "reopen": Step((State.DONE, State.SIGNED, State.DROPPED), State.OPEN, "reopen"),
        "drop": Step((State.OPEN, State.IN_HAND, State.WAITING, State.HELD), State.DROPPED, "drop"),
        # Half-done work that was dropped stays dropped; somebody answers for the car.
        "whole": Step((State.DROPPED,), State.DROPPED, "answer for"),
    },
    sentence="To {verb} a job it must be {wanted}; this one is {state}.",
)
