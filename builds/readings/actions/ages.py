"""How old a garage lets its readings be."""

from collections.abc import Mapping

from django.db import transaction

from builds.readings.models.age import ReadingAge
from garage.models import Garage


@transaction.atomic
def set_ages(garage: Garage, days: Mapping[str, int]) -> None:
    """Days by kind (key), those of all of them under an empty key; a kind left out has none."""
    ReadingAge.objects.in_garage(garage).delete()
    ReadingAge.objects.bulk_create(ReadingAge(garage=garage, kind=key, days=count) for key, count in days.items())
