"""What a hunt for remedies and a trial answer with, for a page to show."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.outlook import Outlook
from builds.remedies.deeds.deed import Deed
from builds.remedies.engine.judges import ByOdds, ByPlan
from builds.remedies.engine.proof import Proof
from builds.remedies.engine.remedy import Remedy, Trying
from builds.remedies.facts.late_car import LateCar
from builds.remedies.facts.trials import Trial
from builds.work.models.job import Job
from garage.models import Entry


@dataclass(frozen=True)
class Offer:
    """A remedy, and the deeds that bring it about.

    `turned` are the other entries that then make it (true) or miss it, unlike in the plan on the
    wall; `late` the wanted jobs that then are late. `in_time` of `runs` have the car in time, where its plan has it.
    """

    remedy: Remedy
    deeds: tuple[Deed, ...]
    turned: tuple[tuple[Entry, bool], ...]
    late: tuple[Job, ...]
    in_time: int = 0
    runs: int = 0


@dataclass(frozen=True)
class HuntRound:
    """What one round of trying came to: its remedies as offers, what came nearest where nothing does, and
    the kinds of deed that were tried.

    `judge` is the plan where that has the car late, else the odds; `seconds` all rounds took so far.
    """

    car: LateCar
    trying: Trying
    offers: tuple[Offer, ...]
    nearest: Offer | None
    kinds: tuple[type[Deed], ...]
    judge: ByPlan | ByOdds
    seconds: float = 0


@dataclass(frozen=True)
class WhatItTakes:
    """`round` is None where there is nothing to find: it does not fall short, `outlook` is None for
    an event that is over, the rows do not hang together (`wrong`), or the car has another entry
    `first`.
    """

    entry: Entry
    outlook: Outlook | None
    proofs: tuple[Proof, ...] = ()
    round: HuntRound | None = None
    wrong: str = ""
    first: Entry | None = None


@dataclass(frozen=True)
class TrialAnswer:
    """A trial looked at, at a moment: `given_up` are the entries (by pk) whose cars then stay at home,
    `entered` those that there then are besides. `refusal` is why whoever looks may not keep it.
    """

    at: datetime
    trial: Trial
    given_up: frozenset[int]
    entered: tuple[Entry, ...]
    refusal: str
