"""Whether a car was stripped at a moment."""

from datetime import datetime

from django.db.models import Min

from builds.work.models.link import StationHold
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES
from garage.models import Vehicle


def stripped_until(vehicle: Vehicle, at: datetime) -> str:
    """The job that puts it back, of a strip that was begun then and not ended; empty when it was whole."""
    strips = StationHold.objects.filter(first__vehicle=vehicle).with_begun().filter(begun=True)
    for kept in strips.select_related("last"):
        since = Span.objects.filter(job=kept.first_id).by_hands().aggregate(first=Min("from_at"))["first"]
        ended = kept.last.finished_at if kept.last.state in FINISHED_STATES else None
        if (since is None or since <= at) and (ended is None or ended > at):
            return kept.last.title
    return ""
