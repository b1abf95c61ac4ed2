"""How the readings of cars stand: taken, void because of which job, in or out, or only a note."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Q

from builds.readings.engine import READINGS
from builds.readings.engine.conditions import lacking, not_as_raced
from builds.readings.engine.fields import CHECK, Field
from builds.readings.engine.judge import NOT_JUDGED, OUT, Goal, judge, judge_all
from builds.readings.engine.limits import without_limit
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.vocabulary import with_bases
from builds.readings.engine.void import (
    MISSING,
    FinishedWork,
    ReadingStanding,
    TakenReading,
    standing_by,
    standings,
)
from builds.readings.facts.ages import ages_of, not_before
from builds.readings.facts.finished import finished_work
from builds.readings.facts.instruments import instruments_of, run_out
from builds.readings.facts.kinds import kinds_of
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from builds.work.engine.running import Run
from builds.work.facts.runs import RunsByCar, runs_of
from garage.engine.gear import GearItem, Judged
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class KindLine:
    """A kind of reading on a car: its newest reading that nobody struck out, and how it stands.

    `through` is the kind (slug) below it that `work` made void, where it is void only by resting on it;
    `run` is what it is not known since, `days` how old the garage lets it be, if it says so;
    `instrument` how what it was taken with stood that day, where it was out of its date.
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
    instrument: Judged | None = None

    @property
    def taken_at(self) -> datetime | None:
        return self.reading.at if self.reading else None

    @property
    def stripped(self) -> bool:
        return self.reading is not None and self.reading.stripped

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

    @property
    def not_as_raced(self) -> tuple[str, ...]:
        """What else makes it only a note, in a few words each."""
        if self.reading is None:
            return ()
        taken = self.reading
        return not_as_raced(self.kind.key, bars=taken.bars, driver=taken.driver, fuel_ml=taken.fuel_ml)

    @property
    def only_a_note(self) -> bool:
        return bool(self.lacking or self.not_as_raced or self.stripped)


@dataclass(frozen=True)
class CarReadings:
    """`required` is None while nobody has said which readings the car must have."""

    required: tuple[str, ...] | None
    lines: dict[str, KindLine]

    @property
    def required_lines(self) -> tuple[KindLine, ...]:
        return tuple(line for line in self.lines.values() if line.required)


def readings_of(
    garage: Garage,
    vehicles: Iterable[Vehicle],
    at: datetime,
    *,
    every_kind: bool = True,
    ran: RunsByCar | None = None,
) -> dict[int, CarReadings]:
    """Of each car (pk) every kind, in measuring order; as many queries for one as for fifty.

    Not of `every_kind` only those that one of the cars must have, and what these rest on; none where
    nobody has said which. `ran` are the runs of the cars, if they are at hand.
    """
    cars = list(vehicles)
    required = dict(RequiredReadings.objects.filter(vehicle__in=cars).values_list("vehicle_id", "kinds"))
    if not (required or every_kind):
        return {}
    kinds = kinds_of(garage)
    if not every_kind:
        asked = with_bases(key for keys in required.values() for key in keys)
        kinds = {key: kind for key, kind in kinds.items() if key in asked}
    newest = _newest(cars, kinds)
    targets: dict[int, dict[str, dict[str, Target]]] = defaultdict(lambda: defaultdict(dict))
    for target in Target.objects.filter(vehicle__in=cars):
        targets[target.vehicle_id][target.key][target.field] = target
    days = ages_of(garage, kinds)
    book = _Book(kinds, days, not_before(kinds, days, at), instruments_of(garage), ZoneInfo(garage.time_zone))
    done, runs = _done(cars, newest, at), runs_of(cars, at) if ran is None else ran
    return {
        car.pk: _car(
            book, required.get(car.pk), newest[car.pk], targets[car.pk], done.get(car.pk, []), runs.get(car.pk, [])
        )
        for car in cars
    }


def _newest(cars: list[Vehicle], kinds: Mapping[str, ReadingKind]) -> dict[int, dict[str, Reading]]:
    """By car (pk) and kind (key); two queries."""
    slugs = [kind.slug for kind in kinds.values() if kind.slug]
    of_kinds = Q(kind__in=slugs) | Q(own__in=[kind.own for kind in kinds.values() if kind.own])
    rows = Reading.objects.filter(of_kinds, vehicle__in=cars).last_of_each()
    newest: dict[int, dict[str, Reading]] = defaultdict(dict)
    for reading in rows.select_related("by__person").prefetch_related("values"):
        newest[reading.vehicle_id][reading.key] = reading
    return newest


def _done(
    cars: list[Vehicle], newest: Mapping[int, Mapping[str, Reading]], at: datetime
) -> dict[int, list[FinishedWork]]:
    """The work that can have made one of these void: nothing older than the oldest of them."""
    taken = [reading.at for by_kind in newest.values() for reading in by_kind.values()]
    return finished_work(cars, min(taken), at) if taken else {}


@dataclass(frozen=True)
class _Book:
    """What is the same for every car of the garage."""

    kinds: dict[str, ReadingKind]
    days: dict[str, int]
    not_before: dict[str, datetime]
    instruments: dict[str, GearItem]
    zone: ZoneInfo


def _car(
    book: _Book,
    required: list[str] | None,
    newest: dict[str, Reading],
    targets: dict[str, dict[str, Target]],
    done: list[FinishedWork],
    runs: list[Run],
) -> CarReadings:
    taken = {key: _taken(newest.get(key)) for key in book.kinds}
    standing_of = standings({slug: taken[slug] for slug in READINGS if slug in taken}, done, runs, book.not_before)
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
        standing.through,
        standing.run,
        book.days.get(kind.key),
        run_out(reading, book.instruments, book.zone) if reading else None,
    )


def last_amounts(vehicle: Vehicle, key: str) -> dict[str, int | None]:
    """The figures of the newest reading of that kind (key) that stands, by field; two queries."""
    reading = Reading.objects.on(vehicle).of(key).standing().newest().first()
    return dict(reading.values.values_list("field", "amount")) if reading else {}


def _taken(reading: Reading | None) -> TakenReading | None:
    return TakenReading(reading.at, reading.last_of_id) if reading else None
