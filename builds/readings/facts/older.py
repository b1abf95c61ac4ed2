"""Older readings of cars, of kinds whose newest left a wheel out."""

from collections import defaultdict
from collections.abc import Mapping

from django.db.models import Prefetch

from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.models.reading import Reading, ReadingValue

OlderByCar = Mapping[int, Mapping[str, list[Reading]]]


def older_of(kinds: Mapping[str, ReadingKind], newest: Mapping[int, Mapping[str, Reading]]) -> OlderByCar:
    """By car (pk) and kind (key) those before the newest, the last first, back to a whole one.

    Two queries, or none where every newest reading is whole.
    """
    partial = {
        (car, key): reading
        for car, by_kind in newest.items()
        for key, reading in by_kind.items()
        if kinds[key].read_alone and len(reading.values.all()) < len(kinds[key].fields)
    }
    if not partial:
        return {}
    cars, keys = {car for car, _ in partial}, {key for _, key in partial}
    rows = Reading.objects.standing().filter(vehicle__in=cars, kind__in=keys).order_by("-at", "-pk")
    older: dict[int, dict[str, list[Reading]]] = defaultdict(dict)
    whole: set[tuple[int, str]] = set()
    for reading in rows.prefetch_related(Prefetch("values", ReadingValue.objects.select_related("reading"))):
        place = (reading.vehicle_id, reading.key)
        if place not in partial or place in whole or reading.pk == partial[place].pk:
            continue
        older[reading.vehicle_id].setdefault(reading.key, []).append(reading)
        if len(reading.values.all()) == len(kinds[reading.key].fields):
            whole.add(place)
    return older
