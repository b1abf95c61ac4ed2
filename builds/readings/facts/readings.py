"""How the readings of cars stand: taken, void because of which job, in or out, or only a note."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db.models import Exists, Max, OuterRef, Q

from builds.readings.engine import READINGS
from builds.readings.engine.conditions import lacking
from builds.readings.engine.fields import CHECK, Field
from builds.readings.engine.judge import NOT_JUDGED, OUT, Goal, judge, judge_all
from builds.readings.engine.kinds_of_work import KINDS, pulled_kinds
from builds.readings.engine.limits import without_limit
from builds.readings.engine.running import Run
from builds.readings.engine.void import (
    MISSING,
    FinishedWork,
    ReadingStanding,
    TakenReading,
    standing_by,
    standings,
)
from builds.readings.facts.ages import ages_of, not_before
from builds.readings.facts.kinds import ReadingKind, kinds_of
from builds.readings.facts.runs import runs_of
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from builds.work.models.owed import Owed
from builds.work.models.states import State
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class KindLine:
    """A kind of reading on a car: its newest reading that nobody struck out, and how it stands.

    `through` is the kind below it that `work` made void, where it is void only by resting on it;
    `run` is what it is not known since, `days` how old the garage lets it be, if it says so.
    """

    kind: ReadingKind
    required: bool = False
    reading: Reading | None = None
    values: dict[str, ReadingValue] = field(default_factory=dict)
    targets: dict[str, Target] = field(default_factory=dict)
    state: str = MISSING
    work: FinishedWork | None = None
    through: str = ""
    run: Run | None = None
    days: int | None = None

    @property
    def amounts(self) -> dict[str, int | None]:
        return {slug: value.amount for slug, value in self.values.items()}

    @property
    def goals(self) -> dict[str, Goal]:
        return {slug: target.goal for slug, target in self.targets.items()}

    @property
    def judged(self) -> str:
        return judge_all(self.kind.fields, self.amounts, self.goals) if self.reading else NOT_JUDGED

    def judged_value(self, slug: str) -> str:
        field = next(known for known in self.kind.fields if known.slug == slug)
        return judge(field, self.amounts.get(slug), self.goals.get(slug))

    @property
    def without_limit(self) -> tuple[Field, ...]:
        return without_limit(self.kind.key, self.kind.figures, self.targets)

    @property
    def failed(self) -> bool:
        """Whether a check in it failed; figures out of their limits can be set."""
        checks = [field.slug for field in self.kind.fields if field.type == CHECK]
        return any(self.judged_value(slug) == OUT for slug in checks)

    @property
    def lacking(self) -> tuple[str, ...]:
        """Conditions (slugs) without which it is only a note."""
        return lacking(self.kind.conditions, self.reading.given) if self.reading else ()


@dataclass(frozen=True)
class CarReadings:
    """`required` is None while nobody has said which readings the car must have."""

    required: tuple[str, ...] | None
    lines: dict[str, KindLine]

    @property
    def required_lines(self) -> tuple[KindLine, ...]:
        return tuple(line for line in self.lines.values() if line.required)


def finished_work(vehicles: Iterable[Vehicle]) -> dict[int, list[FinishedWork]]:
    """Work of each car (pk) that ended and disturbs readings: two queries.

    A job opened again was still finished once, and one that was dropped half way was worked on;
    a part pulled for another car was work too, unless the pulling was undone. The running itself
    is told by `runs_of`: its job, and one that was taken back, disturb nothing here.
    """
    hands, done = Q(spans__state=State.IN_HAND), Q(spans__state=State.DONE)
    again = Q(spans__state=State.OPEN)
    rows = (
        Job.objects.filter(vehicle__in=vehicles)
        .exclude(kinds=[])
        .annotate(done_at=Max("spans__from_at", filter=done))
        .annotate(begun_at=Max("spans__from_at", filter=hands))
        .annotate(again_at=Max("spans__from_at", filter=again))
        .annotate(left_at=Max("spans__until_at", filter=hands))
        .annotate(ran=Exists(EntryRun.objects.filter(job=OuterRef("pk"))))
        .values(
            *("pk", "vehicle_id", "title", "kinds", "state", "finished_at"),
            *("done_at", "begun_at", "again_at", "left_at", "ran"),
        )
    )
    work_of: dict[int, list[FinishedWork]] = defaultdict(list)
    for job in rows:
        if ended := _ended(job):
            told = job["ran"] or job["state"] == State.DROPPED
            kinds = tuple(kind for kind in job["kinds"] if kind in KINDS and not (told and kind == "first_run"))
            work = FinishedWork(job["pk"], job["title"], kinds, ended, _begun(job))
            work_of[job["vehicle_id"]].append(work)
    pulls = Owed.objects.filter(vehicle__in=vehicles).standing().select_related("move__part")
    for owed in pulls:
        part = owed.move.part
        work = FinishedWork(owed.job_id, f"Pulled: {part}", pulled_kinds(part.systems), owed.move.at)
        work_of[owed.vehicle_id].append(work)
    return work_of


def _ended(job: dict[str, Any]) -> datetime | None:
    ends = [job["finished_at"], job["done_at"]]
    if job["state"] == State.DROPPED:
        ends.append(job["left_at"])
    return max((moment for moment in ends if moment), default=None)


def _begun(job: dict[str, Any]) -> datetime | None:
    """When hands last went to it; opened again and finished without a start, from then on."""
    begun = [job["begun_at"], job["again_at"] if job["finished_at"] else None]
    return max((moment for moment in begun if moment), default=None)


def readings_of(garage: Garage, vehicles: Iterable[Vehicle], at: datetime) -> dict[int, CarReadings]:
    """Of each car (pk) every kind, in measuring order; as many queries for one as for fifty."""
    cars = list(vehicles)
    required = dict(RequiredReadings.objects.filter(vehicle__in=cars).values_list("vehicle_id", "kinds"))
    newest: dict[int, dict[str, Reading]] = defaultdict(dict)
    rows = Reading.objects.filter(vehicle__in=cars).last_of_each()
    for reading in rows.select_related("by__person").prefetch_related("values"):
        newest[reading.vehicle_id][reading.key] = reading
    targets: dict[int, dict[str, dict[str, Target]]] = defaultdict(lambda: defaultdict(dict))
    for target in Target.objects.filter(vehicle__in=cars):
        targets[target.vehicle_id][target.key][target.field] = target
    kinds = kinds_of(garage)
    days = ages_of(garage, kinds)
    book = _Book(kinds, days, not_before(kinds, days, at))
    done, runs = finished_work(cars), runs_of(cars, at)
    return {
        car.pk: _car(
            book, required.get(car.pk), newest[car.pk], targets[car.pk], done.get(car.pk, []), runs.get(car.pk, [])
        )
        for car in cars
    }


@dataclass(frozen=True)
class _Book:
    """What is the same for every car of the garage."""

    kinds: dict[str, ReadingKind]
    days: dict[str, int]
    not_before: dict[str, datetime]


def _car(
    book: _Book,
    required: list[str] | None,
    newest: dict[str, Reading],
    targets: dict[str, dict[str, Target]],
    done: list[FinishedWork],
    runs: list[Run],
) -> CarReadings:
    taken = {key: _taken(newest.get(key)) for key in book.kinds}
    standing_of = standings({slug: taken[slug] for slug in READINGS}, done, runs, book.not_before)
    lines = {}
    for key, kind in book.kinds.items():
        standing = standing_of.get(key) or standing_by(key, kind.follows, taken[key], done, runs, book.not_before)
        lines[key] = _line(book, kind, key in (required or ()), newest.get(key), targets.get(key, {}), standing)
    return CarReadings(None if required is None else tuple(key for key in book.kinds if key in required), lines)


def _line(
    book: _Book,
    kind: ReadingKind,
    required: bool,
    reading: Reading | None,
    targets: dict[str, Target],
    standing: ReadingStanding,
) -> KindLine:
    return KindLine(
        kind,
        required,
        reading,
        {value.field: value for value in reading.values.all()} if reading else {},
        targets,
        standing.state,
        standing.work,
        READINGS[standing.through].label if standing.through else "",
        standing.run,
        book.days.get(kind.key),
    )


def last_amounts(vehicle: Vehicle, key: str) -> dict[str, int | None]:
    """The figures of the newest reading of that kind (key) that stands, by field; two queries."""
    reading = Reading.objects.on(vehicle).of(key).standing().newest().first()
    return dict(reading.values.values_list("field", "amount")) if reading else {}


def _taken(reading: Reading | None) -> TakenReading | None:
    return TakenReading(reading.at, reading.last_of_id) if reading else None
