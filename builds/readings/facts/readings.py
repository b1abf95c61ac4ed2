"""How the readings of cars stand: taken, void because of which job, in or out, or only a note."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Q

from builds.readings.engine import READINGS
from builds.readings.engine.conditions import lacking, not_as_raced
from builds.readings.engine.kind_line import CarReadings, KindLine
from builds.readings.engine.reading_kind import ReadingKind, shipped_kind
from builds.readings.engine.vocabulary import with_bases
from builds.readings.engine.void import (
    STANDS,
    FinishedWork,
    ReadingStanding,
    TakenReading,
    standing_by,
    standings,
)
from builds.readings.facts.ages import ages_of, not_before
from builds.readings.facts.finished import finished_work
from builds.readings.facts.instruments import Instrument, instruments_of, run_out
from builds.readings.facts.kinds import kinds_of
from builds.readings.facts.older import OlderByCar, older_of
from builds.readings.facts.seen import seen_of
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from builds.work.engine.running import Run
from builds.work.facts.runs import RunsByCar, runs_of
from garage.models import Garage, Vehicle


def readings_of(
    garage: Garage,
    vehicles: Iterable[Vehicle],
    at: datetime,
    *,
    every_kind: bool = True,
    keys: Collection[str] = (),
    ran: RunsByCar | None = None,
) -> dict[int, CarReadings]:
    """Of each car (pk) every kind, in measuring order; as many queries for one as for fifty.

    Not of `every_kind` only those that one of the cars must have, and what these rest on; none where
    nobody has said which. Of `keys` (of kinds that every garage has) only those and what they rest on. `ran` are the
    runs of the cars, if they are at hand.
    """
    cars = list(vehicles)
    required = dict(RequiredReadings.objects.filter(vehicle__in=cars).values_list("vehicle_id", "kinds"))
    if not (required or every_kind):
        return {}
    kinds = {key: shipped_kind(key) for key in READINGS if key in with_bases(keys)} if keys else kinds_of(garage)
    if not every_kind:
        asked = with_bases(key for keys in required.values() for key in keys)
        kinds = {key: kind for key, kind in kinds.items() if key in asked}
    newest = _newest(cars, kinds, at)
    older = older_of(kinds, newest)
    targets: dict[int, dict[str, dict[str, Target]]] = defaultdict(lambda: defaultdict(dict))
    for target in Target.objects.filter(vehicle__in=cars):
        targets[target.vehicle_id][target.key][target.field] = target
    days = ages_of(garage, kinds)
    book = _Book(at, kinds, days, not_before(kinds, days, at), instruments_of(garage), ZoneInfo(garage.time_zone))
    done, runs = _done(garage, cars, newest, older, at), runs_of(garage, cars, at) if ran is None else ran
    return {
        car.pk: _car(
            book,
            _OnCar(
                required.get(car.pk),
                newest[car.pk],
                targets[car.pk],
                done.get(car.pk, []),
                runs.get(car.pk, []),
                older.get(car.pk, {}),
            ),
        )
        for car in cars
    }


def _newest(cars: list[Vehicle], kinds: Mapping[str, ReadingKind], at: datetime) -> dict[int, dict[str, Reading]]:
    """By car (pk) and kind (key); two queries. What was written down after one of a day to come counts before it."""
    slugs = [kind.slug for kind in kinds.values() if kind.slug]
    of_kinds = Q(kind__in=slugs) | Q(own__in=[kind.own for kind in kinds.values() if kind.own])
    readings = Reading.objects.filter(of_kinds, vehicle__in=cars).select_related("by__person")
    newest: dict[int, dict[str, Reading]] = defaultdict(dict)
    for reading in readings.last_of_each().prefetch_related("values"):
        newest[reading.vehicle_id][reading.key] = reading
    if any(reading.at > at for by_kind in newest.values() for reading in by_kind.values()):
        for reading in readings.last_of_each(before=at + timedelta.resolution).prefetch_related("values"):
            if reading.pk > newest[reading.vehicle_id][reading.key].pk:
                newest[reading.vehicle_id][reading.key] = reading
    return newest


def _done(
    garage: Garage,
    cars: list[Vehicle],
    newest: Mapping[int, Mapping[str, Reading]],
    older: OlderByCar,
    at: datetime,
) -> dict[int, list[FinishedWork]]:
    """The work, and what was seen, that can have made one of these void: no work older than the oldest of them."""
    taken = [reading.at for by_kind in newest.values() for reading in by_kind.values()]
    taken += [reading.at for by_kind in older.values() for readings in by_kind.values() for reading in readings]
    if not taken:
        return {}
    since = min(taken)
    done, seen = finished_work(cars, since, at), seen_of(garage, since)
    return {car.pk: [*done.get(car.pk, ()), *(sight.voiding for sight in seen.get(car.pk, ()))] for car in cars}


@dataclass(frozen=True)
class _Book:
    """What is the same for every car of the garage."""

    at: datetime
    kinds: dict[str, ReadingKind]
    days: dict[str, int]
    not_before: dict[str, datetime]
    instruments: tuple[Instrument, ...]
    zone: ZoneInfo


@dataclass(frozen=True)
class _OnCar:
    """What one car has, by kind (key), and what happened to it; `required` is None where nobody has said."""

    required: list[str] | None
    newest: dict[str, Reading]
    targets: dict[str, dict[str, Target]]
    done: list[FinishedWork]
    runs: list[Run]
    older: Mapping[str, list[Reading]]


def _car(book: _Book, car: _OnCar) -> CarReadings:
    taken, old = {key: _taken(car.newest.get(key), book.at) for key in book.kinds}, book.not_before
    standing_of = standings({slug: taken[slug] for slug in READINGS if slug in taken}, car.done, car.runs, old)
    lines = {}
    for key, kind in book.kinds.items():
        standing = standing_of.get(key)
        standing = standing or standing_by(key, kind.follows, taken[key], car.done, car.runs, not_before=old)
        lines[key] = _line(book, car, kind, standing)
    required = None if car.required is None else tuple(key for key in book.kinds if key in car.required)
    return CarReadings(required, lines)


def _line(book: _Book, car: _OnCar, kind: ReadingKind, standing: ReadingStanding) -> KindLine:
    reading = car.newest.get(kind.key)
    kept = list(_kept(book, car, kind, reading)) if kind.key in car.older else []
    return KindLine(
        kind,
        kind.key in (car.required or ()),
        reading,
        {value.field: value for value in (*kept, *(reading.values.all() if reading else ()))},
        car.targets.get(kind.key, {}),
        standing.state,
        standing.work,
        standing.through,
        standing.run,
        book.days.get(kind.key),
        run_out(reading.instrument, reading.at, book.instruments, book.zone) if reading else None,
        {value.field: value.reading.at for value in kept},
    )


def _kept(book: _Book, car: _OnCar, kind: ReadingKind, newest: Reading | None) -> Iterator[ReadingValue]:
    """Of figures that the newest left out those of older readings, as far back as they count by themselves."""
    told = {value.field for value in newest.values.all()} if newest else set()
    for reading in car.older[kind.key]:
        standing = standing_by(
            kind.key, kind.follows, _taken(reading, book.at), car.done, car.runs, not_before=book.not_before
        )
        if (
            standing.state != STANDS
            or _is_note(kind, reading)
            or run_out(reading.instrument, reading.at, book.instruments, book.zone)
        ):
            return
        yield from (value for value in reading.values.all() if value.field not in told)
        told |= {value.field for value in reading.values.all()}


def _is_note(kind: ReadingKind, reading: Reading) -> bool:
    raced = not_as_raced(kind.key, bars=reading.bars, driver=reading.driver, fuel_ml=reading.fuel_ml)
    return bool(reading.stripped or raced or lacking(kind.conditions, reading.given))


def last_amounts(vehicle: Vehicle, key: str) -> dict[str, int | None]:
    """The figures of the newest reading of that kind (key) that stands, by field; two queries."""
    reading = Reading.objects.on(vehicle).of(key).standing().newest().first()
    return dict(reading.values.values_list("field", "amount")) if reading else {}


def _taken(reading: Reading | None, at: datetime) -> TakenReading | None:
    return TakenReading(reading.at, reading.last_of_id, ahead=reading.at > at) if reading else None
