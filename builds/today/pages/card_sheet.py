"""Job cards in words: for each person what is to be done, with what, and where the work stops."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.joints.engine.torque_words import torque_lines
from builds.joints.pages.joint_torques import torque_rows
from builds.needs.pages.needs import need_lines
from builds.steps.engine.cautions import cautions_for
from builds.steps.pages.job_cards import time_words
from builds.steps.pages.time_log import names, point_words
from builds.sums.pages.job_sums import sums_of_jobs
from builds.today.facts.asked import Asked
from builds.today.facts.cards import CardFacts, card_facts
from builds.today.facts.evening import Turn, evening_of, turns_of
from builds.today.pages.asked import asked_words
from builds.verdict.pages import SheetHead, head_of
from builds.work.engine.state_words import LOOKED_FOR
from builds.work.facts.room_now import room_in
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.states import BEGINNABLE, State
from garage.access import refuse_presence
from garage.clock import dated_words
from garage.engine.moments import day_words
from garage.models import Garage, Membership
from garage.pages.nights import dated_night_words
from garage.pages.people import whereabouts
from garage.public import public


@dataclass(frozen=True)
class Tick:
    """Something to tick; `mark` is full when that is done already."""

    what: str
    note: str = ""
    mark: str = ""


@dataclass(frozen=True)
class CardRows:
    """A job: `facts` stand on its tag, `blocks` say why it cannot be begun yet, `stop` why it must not go on."""

    title: str
    facts: tuple[str, ...]
    address: str
    cautions: tuple[str, ...]
    blocks: tuple[str, ...]
    note: str
    torques: tuple[Tick, ...]
    parts: tuple[Tick, ...]
    points: tuple[Tick, ...]
    sums: tuple[str, ...]
    stop: str = ""


@dataclass(frozen=True)
class Hand:
    """A person with the hours of this evening, or nobody in particular; and the cards."""

    name: str
    cards: tuple[CardRows, ...]


@dataclass(frozen=True)
class CardSheet:
    head: SheetHead
    title: str
    hands: tuple[Hand, ...]


def card_sheet_rows(garage: Garage, at: datetime, asked: Asked, reader: Membership | None = None) -> CardSheet:
    """As many queries for one card as for fifty; a command has no `reader`."""
    work = load_work(garage, at)
    turns = turns_of(garage, work, asked)
    cars = {work.jobs[turn.job].vehicle_id: work.jobs[turn.job].vehicle for turn in turns}
    name, day = asked_words(asked), evening_of(garage, at)
    return CardSheet(
        head_of(garage, at, [cars[pk] for pk in sorted(cars)], _path(asked)),
        f"Job card: {name}" if asked.job else f"Job cards for {name} ({day_words(day)})",
        tuple(_hands(turns, _Cards(card_facts(garage, work, [turn.job for turn in turns]), reader), asked)),
    )


def _path(asked: Asked) -> str:
    """Where the code of the sheet leads."""
    if asked.job:
        return reverse("job_page", args=[asked.job.pk])
    return reverse("event_page", args=[asked.event.pk]) if asked.event else reverse("today")


def _hands(turns: list[Turn], cards: "_Cards", asked: Asked) -> Iterator[Hand]:
    """Each person's cards in their order; then what nobody in particular has."""
    people = cards.facts.people
    for pk in people:
        own = [turn for turn in turns if pk in turn.people]
        if own and (asked.person is None or asked.person.pk == pk):
            yield Hand(cards.hours(pk), tuple(cards.card(turn, pk) for turn in own))
    free = [turn for turn in turns if people.keys().isdisjoint(turn.people)]
    if free:
        name = "What is to do" if asked.job or asked.event else "Nobody in particular has these"
        yield Hand(name, tuple(cards.card(turn) for turn in free))


class _Cards:
    """The cards of jobs in words."""

    def __init__(self, facts: CardFacts, reader: Membership | None) -> None:
        self.facts, self.work, self.reader = facts, facts.work, reader
        self.torques = torque_rows(facts.garage, facts.jobs.values())
        self.room = room_in(facts.garage, facts.work)
        self.stops = self.room.stops()
        self.sums = sums_of_jobs(facts.jobs.values(), self.work.at)

    def hours(self, pk: int) -> str:
        """A person (pk), and when he is in tonight, if that is the reader's to see."""
        if self.reader and refuse_presence(self.reader):
            return self.facts.people[pk].name
        zone = ZoneInfo(self.facts.garage.time_zone)
        words = whereabouts(self.facts.people[pk], self.facts.windows.get(pk, []), self.work.at, zone)
        return f"{self.facts.people[pk].name}, {words}"

    def card(self, turn: Turn, pk: int = 0) -> CardRows:
        """For the person (pk), or for nobody in particular."""
        job = self.facts.jobs[turn.job]
        stations = [use.station.slug for use in self.facts.uses[job.pk]]
        return CardRows(
            job.title,
            tuple(filter(None, self._tag(job, turn, pk))),
            public(reverse("job_page", args=[job.pk])),
            tuple(caution.text for caution in cautions_for(job.systems, job.kinds, stations)),
            tuple(self._not_yet(job, turn)),
            job.note,
            tuple(self._torques(job)),
            tuple(self._parts(job)),
            tuple(
                Tick(point.what, point_words(point, self.work.at), "full" if point.signed_at else "")
                for point in self.facts.points[job.pk]
            ),
            tuple(one.words for one in self.sums[job.pk] if one.checks),
            self.stops.get(job.pk, ""),
        )

    def _tag(self, job: Job, turn: Turn, pk: int) -> Iterator[str]:
        """What stands on the tag, line by line; some may be empty."""
        people = self.facts.people
        others = [people[other] for other in turn.people if other != pk and other in people]
        yield f"{job.vehicle}, {job.get_rank_display()}"
        left = LOOKED_FOR if job.looked_for else time_words(job, self.work)
        if turn.start and turn.start > self.work.at:
            left = f"{dated_words(turn.start)}: {left}"
        state = "" if job.state == State.OPEN or job.looked_for else job.get_state_display()
        yield ", ".join(filter(None, [left, state, f"with {names(others)}" if others else ""]))
        at_home = ", ".join(str(use.station) for use in self.facts.uses[job.pk])
        night = job.overnight(self.work.at)
        where = f"{night}, {dated_night_words(night)}" if night else at_home
        skill = f"Skill: {job.skill.name.lower()}" if job.skill else ""
        yield ". ".join(filter(None, [f"At: {where}" if where else "", skill]))
        yield job.state_note

    def _not_yet(self, job: Job, turn: Turn) -> Iterator[str]:
        """Why it cannot be begun: what has to be done first, else what its hands, its car or its place are in."""
        blocks = [block.sentence for block in self.work.blocks(job.pk)]
        if not blocks and job.state in BEGINNABLE and (clash := self.room.clash(job, turn.people)):
            blocks = [clash]
        yield from blocks

    def _torques(self, job: Job) -> Iterator[Tick]:
        """Joints on record that it opens, then the figures that somebody wrote beside it."""
        for joint in self.torques.get(job.pk, ()):
            yield Tick(f"{joint.name}: {joint.figure}", joint.note)
        for words in torque_lines(job.note):
            yield Tick(words, "from the note")

    def _parts(self, job: Job) -> Iterator[Tick]:
        facts = self.facts
        today, currency = self.work.times.shop.today, facts.garage.currency
        for line in need_lines(facts.needs[job.pk], today, facts.wants.standing, currency, facts.last_days):
            note = ". ".join(filter(None, [line.word, line.by and line.by.words, line.behind]))
            yield Tick(line.what, note, "full" if line.got else "")
