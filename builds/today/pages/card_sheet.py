"""Job cards in words: for each person what is to be done, with what, and where the work stops."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.conf import settings
from django.urls import reverse

from builds.joints.engine.torque_words import torque_lines
from builds.joints.pages.joint_torques import torque_rows
from builds.needs.facts.asked import Asked
from builds.needs.facts.wants import Wants, wants_of
from builds.needs.pages.needs import need_lines
from builds.steps.engine.cautions import cautions_for
from builds.steps.pages.time_log import names, point_words
from builds.today.facts.evening import NIGHT_ENDS, Turn, night_of, turns_of
from builds.verdict.pages import SheetHead, head_of
from builds.work.facts.work import Work, load_work
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.need import Need
from garage.clock import clock_words
from garage.engine.moments import day_words
from garage.engine.tonight import tonight_words
from garage.engine.words import duration_words
from garage.facts.presence import member_windows
from garage.models import Garage, Membership


@dataclass(frozen=True)
class Tick:
    """Something to tick; `mark` is full when that is done already."""

    what: str
    note: str = ""
    mark: str = ""


@dataclass(frozen=True)
class CardRows:
    """A job: `facts` stand on its tag, `blocks` say why it cannot be begun yet."""

    title: str
    facts: tuple[str, ...]
    address: str
    cautions: tuple[str, ...]
    blocks: tuple[str, ...]
    note: str
    torques: tuple[Tick, ...]
    parts: tuple[Tick, ...]
    points: tuple[Tick, ...]


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


def card_sheet_rows(garage: Garage, at: datetime, asked: Asked) -> CardSheet:
    """As many queries for one card as for fifty."""
    work = load_work(garage, at)
    turns = turns_of(garage, work, asked)
    people = {row.pk: row for row in _people(garage)}
    rows = _Rows(garage, work, people, [turn.job for turn in turns])
    cars = {work.jobs[turn.job].vehicle_id: work.jobs[turn.job].vehicle for turn in turns}
    day = (at.astimezone(ZoneInfo(garage.time_zone)) - NIGHT_ENDS).date()
    path = reverse("event_page", args=[asked.event.pk]) if asked.event else reverse("today")
    if asked.job:
        path = reverse("job_page", args=[asked.job.pk])
    return CardSheet(
        head_of(garage, at, [cars[pk] for pk in sorted(cars)], path),
        f"Job card: {asked}" if asked.job else f"Job cards for {asked} ({day_words(day)})",
        tuple(_hands(turns, rows, asked)),
    )


def _people(garage: Garage) -> Iterable[Membership]:
    return Membership.objects.in_garage(garage).active().select_related("person").order_by("pk")


def _hands(turns: list[Turn], rows: "_Rows", asked: Asked) -> Iterable[Hand]:
    """Each person's cards in their order; then what nobody in particular has."""
    for pk in rows.people:
        own = [turn for turn in turns if pk in turn.people]
        if own and (asked.person is None or asked.person.pk == pk):
            yield Hand(rows.hours(pk), tuple(rows.card(turn, pk) for turn in own))
    free = [turn for turn in turns if rows.people.keys().isdisjoint(turn.people)]
    if free:
        name = "What is to do" if asked.job or asked.event else "Nobody in particular has these"
        yield Hand(name, tuple(rows.card(turn) for turn in free))


class _Rows:
    """What the cards of all these jobs are told from, each kind of row in one query."""

    def __init__(self, garage: Garage, work: Work, people: dict[int, Membership], jobs: list[int]) -> None:
        self.garage, self.work, self.people = garage, work, people
        self.windows = member_windows(garage, work.at, night_of(garage, work.at) + timedelta(1))
        self.wants: Wants = wants_of(work)
        self.needs: dict[int, list[Need]] = defaultdict(list)
        for need in Need.objects.filter(job__in=jobs).with_ends():
            self.needs[need.job_id].append(need)
        self.torques = torque_rows(garage, [work.jobs[pk] for pk in jobs])
        self.points: dict[int, list[HoldPoint]] = defaultdict(list)
        points = HoldPoint.objects.filter(job__in=jobs).select_related("job", "signed_by__person")
        for point in points:
            self.points[point.job_id].append(point)
        self.uses: dict[int, list[JobStation]] = defaultdict(list)
        for use in JobStation.objects.filter(job__in=jobs).select_related("station"):
            self.uses[use.job_id].append(use)

    def hours(self, pk: int) -> str:
        zone = ZoneInfo(self.garage.time_zone)
        words = tonight_words(self.windows.get(pk, []), self.work.at, zone)
        return f"{self.people[pk].name}, {words}"

    def card(self, turn: Turn, pk: int = 0) -> CardRows:
        job = self.work.jobs[turn.job]
        stations = [use.station for use in self.uses[job.pk]]
        cautions = cautions_for(job.systems, job.kinds, [station.slug for station in stations])
        return CardRows(
            job.title,
            tuple(filter(None, self._facts(job, turn, pk))),
            f"{settings.PUBLIC_URL}{reverse('job_page', args=[job.pk])}",
            tuple(caution.text for caution in cautions),
            tuple(block.sentence for block in self.work.blocks(job.pk)),
            job.note,
            tuple(self._torques(job)),
            tuple(self._parts(job)),
            tuple(
                Tick(
                    point.what,
                    point_words(point, self.work.at),
                    "full" if point.signed_at else "",
                )
                for point in self.points[job.pk]
            ),
        )

    def _facts(self, job: Job, turn: Turn, pk: int) -> Iterable[str]:
        others = [self.people[each] for each in turn.people if each != pk and each in self.people]
        yield f"{job.vehicle}, {job.get_rank_display()}"
        left = f"about {duration_words(self.work.left(job.pk))} left"
        if turn.start and turn.start > self.work.at:
            left = f"{clock_words(turn.start, self.work.at)}: {left}"
        state = "" if job.state == "open" else job.get_state_display()
        yield ", ".join(filter(None, [left, state, f"with {names(others)}" if others else ""]))
        where = ", ".join(str(use.station) for use in self.uses[job.pk])
        skill = job.skill.name.lower() if job.skill else ""
        yield ". ".join(filter(None, [f"At: {where}" if where else "", skill and f"Skill: {skill}"]))
        yield job.state_note

    def _torques(self, job: Job) -> Iterable[Tick]:
        """Joints on record that it opens, then the figures that somebody wrote beside it."""
        for row in self.torques.get(job.pk, ()):
            yield Tick(f"{row.name}: {row.figure}", row.note)
        for words in torque_lines(job.note):
            yield Tick(words, "from the note")

    def _parts(self, job: Job) -> Iterable[Tick]:
        lines = need_lines(
            self.needs[job.pk], self.work.times.shop.today, self.wants.standing,
            self.garage.currency,
        )  # fmt: skip
        for row in lines:
            note = f"{row.word}. {row.behind}" if row.behind else row.word
            yield Tick(row.what, note, "full" if row.got else "")
