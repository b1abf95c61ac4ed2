"""What happened on a car lately, newest first."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import F
from django.urls import reverse

from builds.steps.pages.time_log import LogLine, log_line
from builds.work.models.span import Span
from garage.models import Vehicle

SHOWN = 8


@dataclass(frozen=True)
class CarLogLine:
    """A step of one of its jobs, and the way to that job."""

    title: str
    url: str
    line: LogLine


def vehicle_log(vehicle: Vehicle, at: datetime) -> tuple[CarLogLine, ...]:
    """The latest steps; two queries."""
    spans = (
        Span.objects.filter(job__vehicle=vehicle)
        .select_related("job", "by__person")
        .prefetch_related("crew__person")
        .exclude(until_at=F("from_at"))  # passed through on the way to another state
        .order_by("-from_at", "-pk")
    )
    return tuple(
        CarLogLine(span.job.title, reverse("job_page", args=[span.job_id]), log_line(span, at))
        for span in spans[:SHOWN]
    )
