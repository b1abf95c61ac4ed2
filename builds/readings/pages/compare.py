"""A car's readings as they stood on two days, side by side."""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import accumulate
from zoneinfo import ZoneInfo

from django.utils import timezone

from builds.readings.engine.figures import change_words
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.why_not import value_words
from builds.readings.facts.kinds import kinds_of
from builds.readings.models.reading import Reading
from garage.engine.moments import day_words
from garage.models import Vehicle

LINES_OPEN = 14  # so many changed values are read on a phone without a tap


@dataclass(frozen=True)
class Compared:
    """A value as it was on two days; `change` is the second less the first."""

    label: str
    first: str
    second: str
    change: str

    @property
    def same(self) -> bool:
        return self.first == self.second


@dataclass(frozen=True)
class ComparedKind:
    kind: ReadingKind
    first: str
    second: str
    values: tuple[Compared, ...]
    open: bool = False

    @property
    def changed(self) -> tuple[Compared, ...]:
        return tuple(value for value in self.values if not value.same)

    @property
    def same(self) -> tuple[Compared, ...]:
        return tuple(value for value in self.values if value.same)


@dataclass(frozen=True)
class ComparedDays:
    """The kinds of which something `changed`, and those that are the `same` on both days."""

    changed: tuple[ComparedKind, ...]
    same: tuple[ComparedKind, ...]


def days_with_readings(vehicle: Vehicle) -> list[tuple[str, str]]:
    """The days on which readings of the car were taken, newest first: ISO and words."""
    moments = Reading.objects.on(vehicle).standing().newest().values_list("at", flat=True)
    days = dict.fromkeys(timezone.localtime(moment).date() for moment in moments)
    return [(day.isoformat(), f"{day_words(day)} {day.year}") for day in days]


def on_day(wanted: str, days: list[tuple[str, str]], index: int) -> tuple[date, str] | None:
    """The day asked for (ISO) if readings were taken on it; else that of the index, or the last."""
    known = dict(days)
    if not days:
        return None
    iso = wanted if wanted in known else days[min(index, len(days) - 1)][0]
    return date.fromisoformat(iso), known[iso]


def compared(vehicle: Vehicle, first: date, second: date) -> ComparedDays:
    """Each kind as it was last read on or before each of two days, side by side; what changed lies open, so far as
    it fits."""
    then, later = (_as_of(vehicle, day) for day in (first, second))
    kinds = [
        _compared(kind, then.get(key), later.get(key), vehicle)
        for key, kind in kinds_of(vehicle.garage).items()
        if key in then or key in later
    ]
    changed = [kind for kind in kinds if kind.changed]
    lines = accumulate(len(kind.changed) for kind in changed)
    return ComparedDays(
        tuple(replace(kind, open=so_far <= LINES_OPEN) for kind, so_far in zip(changed, lines, strict=True)),
        tuple(kind for kind in kinds if not kind.changed),
    )


def _as_of(vehicle: Vehicle, day: date) -> dict[str, Reading]:
    """The newest reading of each kind (key) until the end of that local day."""
    end = datetime.combine(day + timedelta(days=1), datetime.min.time(), ZoneInfo(vehicle.garage.time_zone))
    rows = Reading.objects.on(vehicle).last_of_each(before=end)
    return {reading.key: reading for reading in rows.prefetch_related("values")}


def _compared(kind: ReadingKind, one: Reading | None, two: Reading | None, vehicle: Vehicle) -> ComparedKind:
    system, zone = vehicle.garage.units, ZoneInfo(vehicle.garage.time_zone)
    values = [{value.field: value for value in reading.values.all()} if reading else {} for reading in (one, two)]
    rows = []
    for field in kind.fields:
        before, after = (known.get(field.slug) for known in values)
        if before is None and after is None:
            continue
        change = ""
        if field.quantity and before is not None and after is not None:
            change = change_words(field, (after.amount or 0) - (before.amount or 0), system)
        rows.append(
            Compared(field.label, value_words(field, before, system), value_words(field, after, system), change)
        )
    first, second = (
        f"{reading.at.astimezone(zone):%H:%M} {day_words(reading.at.astimezone(zone).date())}" if reading else ""
        for reading in (one, two)
    )
    return ComparedKind(kind, first, second, tuple(rows))
