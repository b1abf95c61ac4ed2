"""How old readings may be in a garage, by kind."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.models.age import ReadingAge
from garage.models import Garage
from garage.remembered import remembered


def ages_of(garage: Garage, kinds: Mapping[str, ReadingKind]) -> dict[str, int]:
    """Days by kind (key), where the garage says any; one query, or none where it is remembered."""
    told = remembered(
        garage, "reading_ages", lambda: dict(ReadingAge.objects.in_garage(garage).values_list("kind", "days"))
    )
    every = told.get("")
    if every is None:
        return told
    return {key: told.get(key, every) for key in kinds}


def not_before(kinds: Mapping[str, ReadingKind], days: Mapping[str, int], at: datetime) -> dict[str, datetime]:
    """The moment since which a reading of each kind (key) is young enough."""
    return {key: at - timedelta(days=days[key]) for key in kinds if key in days}
