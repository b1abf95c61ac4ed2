"""What would it take: why a car is late, what forbids it, and what would get it there."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from time import perf_counter

from builds.odds import words
from builds.odds.simulate import simulate
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.outcome import CarOutcome
from builds.plan.facts.figures import figures
from builds.plan.facts.log_factors import factors_that_count
from builds.plan.facts.outcomes import outcomes
from builds.planner.problem import ProblemError
from builds.planner.words import listed_in_words
from builds.remedies.engine.attempts import Remedy
from builds.remedies.engine.proof import Proof, proofs
from builds.remedies.engine.standing import missing_cars
from builds.remedies.facts.deeds import Deed, codes
from builds.remedies.facts.offers import offers
from builds.remedies.facts.quest import Quest, quest_of
from builds.remedies.pages.deed_changes import changes_of
from garage.engine.words import duration_words
from garage.models import Entry, Membership

AT_ONCE, A_ROUND, TO_THE_END = 0.5, 0.8, 20.0  # seconds of trying
RUNS = 400
MOST_KNOWN = 400


@dataclass(frozen=True)
class RemedyCard:
    """`refusal` says why the one who looks may not do it; `code` is what the button sends."""

    title: str
    gives: str
    costs: tuple[str, ...]
    undo: str
    code: str
    refusal: str
    heats: bool


@dataclass(frozen=True)
class Round:
    """What one round of trying found; `known` lets the next one go on where this one ended.

    `works_somehow` when this round or one before found anything.
    """

    cards: tuple[RemedyCard, ...] = ()
    known: str = ""
    done: int = 0
    of: int = 0
    over: bool = True
    works_somehow: bool = False
    stopped: bool = False


@dataclass(frozen=True)
class RemedyPage:
    """`first` is the entry that comes before this one for the car, if there is one."""

    entry: Entry
    outcome: CarOutcome | None
    proofs: tuple[Proof, ...] = ()
    round: Round | None = None
    wrong: str = ""
    first: Entry | None = None

    @property
    def said(self) -> str:
        if self.outcome is None:
            return ""
        return self.outcome.of(self.entry.vehicle.name, self.entry.event.name)

    @property
    def impossible(self) -> bool:
        return any(proof.impossible for proof in self.proofs)

    @property
    def asks(self) -> bool:
        """Whether there is anything to find."""
        return self.round is not None


def remedy_page(entry: Entry, by: Membership, at: datetime, *, whole: bool = False) -> RemedyPage:
    """With `whole` everything is tried before it answers."""
    found = outcomes(entry.event.garage, at)
    outcome = found.get(entry.pk)
    if outcome is None or outcome.makes_it or entry.event.due_at <= at:
        return RemedyPage(entry, outcome)
    try:
        quest = quest_of(entry, at)
    except ProblemError as error:
        return RemedyPage(entry, outcome, wrong=str(error))
    first = quest.rows.entry.get(entry.vehicle_id, entry)
    if first != entry:
        return RemedyPage(entry, outcome, first=first)
    proved = proofs(quest.problem, quest.vehicle, quest.clock.words)
    seconds = TO_THE_END if whole else AT_ONCE
    return RemedyPage(entry, outcome, proved, look(quest, by, found, seconds=seconds))


def next_round(entry: Entry, by: Membership, at: datetime, known: str) -> Round:
    """Raises ProblemError."""
    planned = outcomes(entry.event.garage, at)
    return look(quest_of(entry, at), by, planned, known, seconds=A_ROUND)


def stopped_round(known: str) -> Round:
    """Where somebody stopped the trying; `known` lets it go on from there."""
    gaps = _read(known)
    return Round((), known if gaps else "", len(gaps), works_somehow=0 in gaps, stopped=True)


def look(
    quest: Quest,
    by: Membership,
    planned: dict[int, CarOutcome],
    known: str = "",
    *,
    seconds: float,
) -> Round:
    """Try on from what is known until the time is over; the least effort first.

    `planned` is what the plan on the wall means for each entry.
    """
    begun, found, over = perf_counter(), [], True
    gaps = _read(known)
    done = of = 0
    for count, attempt in enumerate(quest.hunt(offers(quest)).run(gaps), 1):
        done, of = attempt.done, attempt.of
        if count <= len(gaps):
            continue
        gaps.append(attempt.gap)
        if attempt.remedy:
            found.append(attempt.remedy)
        if perf_counter() - begun >= seconds:
            over = False
            break
    found.sort(key=lambda remedy: remedy.rank)
    cards = tuple(_card(quest, remedy, by, planned) for remedy in found)
    return Round(cards, ".".join(f"{gap:x}" for gap in gaps), done, max(of, 1), over, 0 in gaps)


def _read(known: str) -> list[int]:
    """Gaps as `look` wrote them; nothing at all rather than half of it."""
    try:
        gaps = [int(part, 16) for part in known.split(".")] if known else []
    except ValueError:
        return []
    return gaps if len(gaps) <= MOST_KNOWN and min(gaps, default=0) >= 0 else []


def _card(quest: Quest, remedy: Remedy, by: Membership, planned: dict[int, CarOutcome]) -> RemedyCard:
    deeds = quest.deeds(remedy.changes)
    refusals = (quest.book.refusal(deed, by) for deed in deeds)
    undo = "; ".join(dict.fromkeys(filter(None, map(quest.book.undo, deeds))))
    return RemedyCard(
        title="; ".join(map(quest.book.told, deeds)),
        gives=_gives(quest, remedy),
        costs=tuple(_costs(quest, remedy, planned)),
        undo=undo,
        code=codes(deeds),
        refusal=next(filter(None, refusals), ""),
        heats=any(deed.kind == "heat" for deed in deeds),
    )


def _gives(quest: Quest, remedy: Remedy) -> str:
    spare = duration_words(remedy.spare * quest.problem.slot_minutes)
    to_spare = f"{spare} of working time to spare" if remedy.spare else "nothing to spare"
    car = quest.entry.vehicle
    return f"{car} is then ready {quest.clock.words(remedy.ready)}, {to_spare}."


def _costs(quest: Quest, remedy: Remedy, planned: dict[int, CarOutcome]) -> Iterator[str]:
    """What becomes of the others against the plan on the wall, for better or worse."""
    missing = missing_cars(remedy.problem, remedy.plan)
    for car, entry in quest.rows.entry.items():
        if entry == quest.entry or entry.pk not in planned:
            continue
        makes_it = id_of("car", car) not in missing
        if makes_it is (not planned[entry.pk].makes_it) and entry.pk not in _home(quest, remedy):
            then = "makes" if makes_it else "misses"
            yield f"{entry.vehicle} then {then} {entry.event}."
    jobs = quest.rows.work.jobs
    late = [str(jobs[pk_of(name)]) for name in remedy.late if pk_of(name) in jobs]
    if len(late) > 3:
        late = [*late[:2], f"{len(late) - 2} more wanted jobs"]
    if late:
        verb = "are" if len(late) > 1 else "is"
        yield f"{listed_in_words(late)} {verb} then late."


def _home(quest: Quest, remedy: Remedy) -> set[int]:
    """The entries that are given up: nothing more is said of them."""
    deeds = quest.deeds(remedy.changes)
    return {deed.numbers[0] for deed in deeds if deed.kind == "home"}


def odds_sentence(entry: Entry, deeds: tuple[Deed, ...], at: datetime) -> str:
    """How often the car is ready in time once these are done, by running that plan many times.

    Raises ProblemError, KeyError for rows that are gone, ValueError for what is no remedy.
    """
    quest = quest_of(entry, at)
    changes = changes_of(quest, deeds)
    problem, plan, _ = quest.hunt(()).tried(changes)
    work, said = quest.rows.work, factors_that_count(entry.event.garage)
    found = simulate(problem, plan, figures(work, said), runs=RUNS).vehicles.get(quest.vehicle)
    return words.in_time(found) if found else ""
