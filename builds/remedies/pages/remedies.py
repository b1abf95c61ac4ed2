"""What would it take: why a car is late, what forbids it, and what would get it there."""

from collections.abc import Iterator
from dataclasses import dataclass

from builds.odds import words
from builds.odds.answer import VehicleOdds
from builds.plan.engine.outlook import Outlook
from builds.remedies.actions.answers import HuntRound, Offer, WhatItTakes
from builds.remedies.deeds.deed import codes, refusal_of, title_of, undo_of
from builds.remedies.engine.proof import Proof
from builds.remedies.facts.late_car import LateCar
from builds.remedies.pages.known import known_words, read_known
from garage.engine.words import listed_in_words
from garage.models import Entry, Membership

MOST_LATE = 3  # jobs that are named


@dataclass(frozen=True)
class RemedyCard:
    """`refusal` says why the one who looks may not do it; `code` is what the button sends."""

    title: str
    gives: str
    costs: tuple[str, ...]
    cautions: tuple[str, ...]
    undo: str
    code: str
    refusal: str


@dataclass(frozen=True)
class Round:
    """What one round of trying found; `known` lets the next one go on where this one ended.

    `works_somehow` when this round or one before found anything; `kinds` says what was tried.
    """

    cards: tuple[RemedyCard, ...] = ()
    known: str = ""
    done: int = 0
    of: int = 0
    over: bool = True
    works_somehow: bool = False
    stopped: bool = False
    kinds: str = ""


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
        return any(proof.impossible for proof in self.proofs)

    @property
    def asks(self) -> bool:
        """Whether there is anything to find."""
        return self.round is not None


def remedy_page(takes: WhatItTakes, by: Membership) -> RemedyPage:
    tried = round_of(takes.round, by) if takes.round else None
    return RemedyPage(takes.entry, takes.outlook, takes.proofs, tried, takes.wrong, takes.first)


def round_of(tried: HuntRound, by: Membership) -> Round:
    cards, trying = tuple(_card(offer, tried.car, by) for offer in tried.offers), tried.trying
    return Round(
        cards,
        known_words(trying.gaps),
        trying.done,
        max(trying.of, 1),
        trying.over,
        0 in trying.gaps,
        kinds=listed_in_words(kind.tried_as for kind in tried.kinds) if tried.kinds else "",
    )


def stopped_round(known: str) -> Round:
    """Where somebody stopped the trying; `known` lets it go on from there."""
    gaps = read_known(known)
    return Round(known=known_words(gaps), done=len(gaps), works_somehow=0 in gaps, stopped=True)


def odds_sentence(odds: VehicleOdds | None) -> str:
    return words.in_time(odds) if odds else ""


def _card(offer: Offer, car: LateCar, by: Membership) -> RemedyCard:
    return RemedyCard(
        title=title_of(offer.deeds, car.deed_rows),
        gives=_gives(offer, car),
        costs=tuple(_costs(offer)),
        cautions=tuple(dict.fromkeys(deed.caution for deed in offer.deeds if deed.caution)),
        undo=undo_of(offer.deeds, car.deed_rows),
        code=codes(offer.deeds),
        refusal=refusal_of(offer.deeds, car.deed_rows, by) or "",
    )


def _gives(offer: Offer, car: LateCar) -> str:
    return f"By the plan {car.entry.vehicle} is then ready {car.clock.words(offer.remedy.ready)}, in time."


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
