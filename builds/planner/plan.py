"""What comes out of the planner: who works on what, from when to when, and what finds no place."""

from __future__ import annotations

from dataclasses import dataclass

Score = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """A job's place: first slot worked, one past the last, and the ids of its people."""

    id: str
    start: int
    end: int
    people: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unplaced:
    """A job without a place; `why` is a sentence a person can act on."""

    id: str
    why: str


@dataclass(frozen=True, slots=True)
class Plan:
    """Every job of the problem, in `placed` (in order of start) or in `unplaced`.

    `score` compares left to right, lower is better (see check.score); `seconds` is the time
    planning took and `tried` how many orders of the list were placed.
    """

    placed: tuple[Placed, ...]
    unplaced: tuple[Unplaced, ...] = ()
    score: Score = ()
    seconds: float = 0.0
    tried: int = 1


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search has come."""

    tries: int
    best_score: Score
    first_score: Score
    seconds: float
