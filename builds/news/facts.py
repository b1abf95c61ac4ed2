"""Who is to be told news, and the parts that came of those that were to come."""

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.db.models import Q, QuerySet

from builds.news.models import NewsWish
from builds.work.models.need import Need
from garage.models import Garage

EVERY = timedelta(hours=1)  # no more than a mail an hour to anybody; a guess


def due(at: datetime) -> QuerySet[NewsWish]:
    """Of those who asked and were not written to lately."""
    return NewsWish.objects.live().filter(Q(sent_at=None) | Q(sent_at__lte=at - EVERY)).order_by("pk")


def came_of(garage: Garage, keys: Iterable[str]) -> list[Need]:
    """Those of these needs that are at hand now."""
    rows = Need.objects.in_garage(garage).filter(pk__in=[int(key) for key in keys]).exclude(got_at=None)
    return list(rows.with_ends())
