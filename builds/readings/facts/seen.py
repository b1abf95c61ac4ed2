"""What was seen of the cars of a garage that older marks, ticks and readings do not know."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Exists, F, OuterRef, Q, QuerySet

from builds.readings.engine.fields import CHECK, FAIL, fields_of
from builds.readings.engine.limits import BETWEEN, LEAST, MOST, OFF
from builds.readings.engine.seen import TELLING, Sight, seen_by_somebody, seen_failed, seen_out
from builds.readings.models.reading import ReadingValue
from builds.readings.models.target import Target
from builds.work.engine.car_work import RUNNING, CarWork
from builds.work.engine.faults import is_fault
from builds.work.models.job import Job
from garage.engine.systems_said import systems_said
from garage.models import Garage
from garage.remembered import notes_of

NOTE = "seen"
CHECKS = {slug: [field.slug for field in fields_of(slug) if field.type == CHECK] for slug in TELLING}


def seen_of(garage: Garage, since: datetime) -> dict[int, list[Sight]]:
    """Of each car (pk) what was seen since then, or since earlier; three queries, none where it is remembered."""
    notes = notes_of(garage)
    kept = None if notes is None else notes.get(NOTE)
    if kept is None or since < kept[0]:
        kept = (since, _seen(garage, since))
        if notes is not None:
            notes[NOTE] = kept
    told: dict[int, list[Sight]] = kept[1]
    return told


def seen_works(garage: Garage, since: datetime) -> dict[int, list[CarWork]]:
    """Of each car (pk) what was seen since then, as joints take it."""
    zone = ZoneInfo(garage.time_zone)
    return {
        car: [sight.work(zone) for sight in sights if sight.at >= since and sight.kinds]
        for car, sights in seen_of(garage, since).items()
    }


def _seen(garage: Garage, since: datetime) -> dict[int, list[Sight]]:
    by_car: dict[int, list[Sight]] = defaultdict(list)
    for car, seen in (*_out(garage, since), *_found(garage, since), *_failed(garage, since)):
        by_car[car].append(seen)
    return dict(by_car)


def _out(garage: Garage, since: datetime) -> Iterator[tuple[int, Sight]]:
    """Readings that are out of their limits as these are now, or failed; not of a stripped car."""
    values = ReadingValue.objects.in_garage(garage).filter(
        reading__kind__in=TELLING, reading__struck_at=None, reading__stripped=False, reading__at__gte=since
    )
    failed = Q(pk=None)
    for slug, checks in CHECKS.items():
        failed |= Q(reading__kind=slug, field__in=checks, amount=FAIL)
    rows = values.annotate(off=Exists(_limits_of_value())).filter(Q(off=True) | failed).order_by("reading")
    told = ("reading_id", "reading__vehicle_id", "reading__kind", "reading__at", "off")
    readings: dict[int, tuple[int, str, datetime, bool]] = {}
    for pk, car, kind, at, off in rows.values_list(*told):
        only_failed = readings[pk][3] if pk in readings else True
        readings[pk] = (car, kind, at, only_failed and not off)
    for car, kind, at, only_failed in readings.values():
        yield car, seen_out(kind, at, failed=only_failed)


def _limits_of_value() -> QuerySet[Target]:
    """The limit that a value (the outer query) lies outside of."""
    amount = OuterRef("amount")
    off = Q(sort=OFF) & (Q(amount__gt=amount + F("second")) | Q(amount__lt=amount - F("second")))
    least, most = Q(sort__in=[LEAST, BETWEEN], amount__gt=amount), Q(sort=MOST, amount__lt=amount)
    out = off | least | most | Q(sort=BETWEEN, second__lt=amount)
    of_value = Target.objects.filter(vehicle=OuterRef("reading__vehicle"), kind=OuterRef("reading__kind"))
    return of_value.filter(out, field=OuterRef("field"))


def _found(garage: Garage, since: datetime) -> Iterator[tuple[int, Sight]]:
    """Jobs that somebody wrote down because he saw something, whatever became of them."""
    rows = Job.objects.in_garage(garage).filter(recipe="", made_at__gte=since).order_by("pk")
    told = ("pk", "vehicle_id", "title", "was_called", "made_at", "seen", "found_in")
    for pk, car, title, was_called, at, seen, during in rows.values_list(*told):
        line = was_called or title
        if seen or during is not None or is_fault(line, ""):
            sight = seen_by_somebody(line, at, systems_said(line), pk)
            if sight is not None:
                yield car, sight


def _failed(garage: Garage, since: datetime) -> Iterator[tuple[int, Sight]]:
    """Items that failed at scrutineering, but for fails that were taken back."""
    stands = Q(checks__answered_by=None) | ~Q(checks__answered_by__step="undo")
    rows = Job.objects.in_garage(garage).filter(stands, checks__step="fail", checks__at__gte=since).distinct()
    item = ("checks__item__text", "checks__note", "checks__at", "checks__item__systems", "checks__item__kinds")
    for car, text, note, at, systems, kinds in rows.order_by("pk").values_list("vehicle_id", *item):
        seen = seen_failed(text, note, at, tuple(systems), frozenset(kinds) - {RUNNING})
        if seen is not None:
            yield car, seen
