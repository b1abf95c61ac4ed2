"""What would it take: why a car falls short, what forbids it, and what would get it there."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from builds.odds import words
from builds.odds.answer import VehicleOdds
from builds.plan.engine.outlook import Outlook
from builds.remedies.actions.answers import HuntRound, Offer, WhatItTakes
from builds.remedies.deeds.deed import cautions_of, codes, refusal_of, title_of, undo_of
from builds.remedies.engine.judges import ByOdds
from builds.remedies.engine.proof import Proof
from builds.remedies.engine.standing import standing
from builds.remedies.facts.late_car import LateCar
from builds.remedies.pages.known import known_words, read_known
from garage.engine.words import listed_in_words
from garage.models import Entry, Membership

MOST_LATE = 3  # jobs that are named
ENOUGH = 10.0  # seconds of trying, all rounds together, after which somebody says whether to go on
BY_PLAN = (
    "Each was planned, least trouble first. It is enough when the plan has the car in time, and so have the odds, "
    "8 times out of 10.",
    "None of them gets it there.",
)
BY_ODDS = (
    "The plan has it in time already, so the work was gone through {} times with each, least trouble first. "
    "It is enough when the car is in time 8 times out of 10.",
    "None of them gets it to 8 times out of 10.",
)
TOGETHER = ("", "alone", *(f"alone and up to {number} together" for number in ("two", "three", "four")))


@dataclass(frozen=True)
class RemedyCard:
    """`refusal` says why the one who looks may not do it; `code` is what the button sends.

    `enough` where it gets the car there: by the odds as well, as far as they were asked.
    """

    title: str
    gives: str
    costs: tuple[str, ...]
    cautions: tuple[str, ...]
    undo: str
    code: str
    refusal: str
    enough: bool = True


@dataclass(frozen=True)
class Round:
    """What one round of trying found; `known` lets the next one go on where this one ended, after `spent`
    tenths of a second.

    `works_somehow` when this round or one before found anything, else `nearest` says what comes nearest;
    `stopped` why no further round follows by itself; `kinds` what was tried, and how many together;
    `judged` by what, and `none_does` what is said where nothing passes; `lacks` is what has no place
    whatever is tried.
    """

    cards: tuple[RemedyCard, ...] = ()
    known: str = ""
    spent: int = 0
    done: int = 0
    of: int = 0
    over: bool = True
    works_somehow: bool = False
    nearest: RemedyCard | None = None
    stopped: str = ""
    kinds: str = ""
    judged: str = ""
    none_does: str = ""
    lacks: str = ""

    @property
    def goes_on(self) -> bool:
        """Whether the page asks for the next round by itself."""
        return not self.over and not self.stopped


class Forbidden(NamedTuple):
    """What proofs come to, and what that leaves."""

    heading: str
    leaves: str


NOT_ALL = Forbidden("Not all of them can", "Whichever goes first, another one then falls short.")
CANNOT = Forbidden("It cannot be done as things are", "No order of the work changes that: something else has to.")
NOT_AS_LIKELY = Forbidden(
    "Not by the likely figures",
    "No order of the work changes that: it has to go quicker than its likely figures, or something else has to change.",
)


@dataclass(frozen=True)
class RemedyPage:
    """`first` is the entry that comes before this one for the car, if there is one."""

    entry: Entry
    outlook: Outlook | None
    proofs: tuple[Proof, ...] = ()
    round: Round | None = None
    wrong: str = ""
    first: Entry | None = None

    @property
    def said(self) -> str:
        if self.outlook is None:
            return ""
        return self.outlook.proved if self.impossible else self.outlook.sentence

    @property
    def impossible(self) -> bool:
        """Whether it is proved that the car cannot make it, and no run of the odds says otherwise."""
        luck = self.outlook is not None and (self.outlook.makes_it is None or self.outlook.by_luck)
        return any(proof.impossible for proof in self.proofs) and not luck

    @property
    def forbidden(self) -> Forbidden:
        if not any(proof.impossible for proof in self.proofs):
            return NOT_ALL
        return CANNOT if self.impossible else NOT_AS_LIKELY

    @property
    def asks(self) -> bool:
        """Whether there is anything to find."""
        return self.round is not None


def remedy_page(takes: WhatItTakes, by: Membership) -> RemedyPage:
    tried = round_of(takes.round, by) if takes.round else None
    return RemedyPage(takes.entry, takes.outlook, takes.proofs, tried, takes.wrong, takes.first)


def round_of(tried: HuntRound, by: Membership) -> Round:
    trying = tried.trying
    judged, none_does = BY_PLAN
    if isinstance(tried.judge, ByOdds):
        judged, none_does = BY_ODDS[0].format(tried.judge.runs), BY_ODDS[1]
    return Round(
        tuple(sorted((_card(offer, tried, by) for offer in tried.offers), key=lambda card: not card.enough)),
        known=known_words(trying.gaps),
        spent=round(10 * tried.seconds),
        done=trying.done,
        of=max(trying.of, 1),
        over=trying.over,
        works_somehow=0 in trying.gaps,
        nearest=_card(tried.nearest, tried, by) if tried.nearest else None,
        stopped="" if trying.over or tried.seconds < ENOUGH else f"{tried.seconds:.0f} seconds are over",
        kinds=_kinds(tried),
        judged=judged,
        none_does=none_does,
        lacks=_lacks(tried.car),
    )


def _lacks(car: LateCar) -> str:
    """`“Read the car” and 2 more have no place as things are. It needs 2 at once, and one person works here.`

    Work for a night at the event keeps nobody at home: it is named where nothing else is.
    """
    jobs = [job for job in car.problem.must_do(car.vehicle) if job.id in car.refused]
    jobs.sort(key=lambda job: job.due is not None and job.due > car.due)
    if not jobs:
        return ""
    many = "has" if len(jobs) == 1 else f"and {len(jobs) - 1} more have"
    return f"{jobs[0].label} {many} no place as things are. {car.refused[jobs[0].id]}"


def _kinds(tried: HuntRound) -> str:
    """`alone and up to three together: wanted work put off and a heater for up to a week`."""
    if not tried.kinds:
        return ""
    together = TOGETHER[tried.trying.together]
    return f"{together}: {listed_in_words(kind.tried_as for kind in tried.kinds)}"


def stopped_round(known: str) -> Round:
    """Where somebody stopped the trying; `known` lets it go on from there."""
    gaps = read_known(known)
    return Round(known=known_words(gaps), done=len(gaps), over=False, works_somehow=0 in gaps, stopped="Stopped")


def odds_sentence(odds: VehicleOdds | None) -> str:
    return words.in_time(odds) if odds else ""


def _card(offer: Offer, tried: HuntRound, by: Membership) -> RemedyCard:
    car = tried.car
    return RemedyCard(
        title=title_of(offer.deeds, car.deed_rows),
        gives=_gives(offer, tried),
        costs=tuple(_costs(offer)),
        cautions=cautions_of(offer.deeds),
        undo=undo_of(offer.deeds, car.deed_rows),
        code=codes(offer.deeds),
        refusal=refusal_of(offer.deeds, car.deed_rows, by) or "",
        enough=offer.in_time >= words.MAKES_IT * offer.runs,
    )


def _gives(offer: Offer, tried: HuntRound) -> str:
    remedy, car = offer.remedy, tried.car
    name = car.entry.vehicle
    if isinstance(tried.judge, ByOdds):
        then, now = (words.counted(count or 0, tried.judge.runs) for count in (remedy.in_time, tried.judge.now))
        return f"{name} is then in time {then}; as things are, {now}."
    now_so = standing(remedy.problem, remedy.plan, car.vehicle)
    if now_so.unplaced:
        jobs = "job then finds" if len(now_so.unplaced) == 1 else "jobs then find"
        return f"{len(now_so.unplaced)} {jobs} no place in the plan."
    ready = f"By the plan {name} is then ready {car.clock.words(remedy.ready)}"
    if not now_so.makes_it:
        return f"{ready}, still too late."
    if not offer.runs:
        return f"{ready}, in time by the plan alone."
    alone = " by the plan alone" if offer.in_time < words.WILL_NOT * offer.runs else ""
    return f"{ready}, in time{alone}; the odds have it so {words.counted(offer.in_time, offer.runs)}."


def _costs(offer: Offer) -> Iterator[str]:
    """What becomes of the others against the plan on the wall, for better or worse."""
    for entry, makes_it in offer.turned:
        then = "makes" if makes_it else "misses"
        yield f"{entry.vehicle} then {then} {entry.event}."
    late = [f"“{job}”" for job in offer.late]
    if len(late) > MOST_LATE:
        late = [*late[: MOST_LATE - 1], f"{len(late) - MOST_LATE + 1} more wanted jobs"]
    if late:
        verb = "are" if len(late) > 1 else "is"
        yield f"{listed_in_words(late)} {verb} then late."
