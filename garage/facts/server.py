"""How the server stands: what is kept on it, and what waits to be done beside it."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Count, Max, Min, Sum
from django_tasks_db.models import DBTaskResult, get_date_max

from garage.models import Garage, Membership, Photo

LATELY = timedelta(days=7)


@dataclass(frozen=True)
class QueueState:
    """`since` is when the one that waits longest could have begun; `failed` of the last week."""

    waiting: int
    since: datetime | None
    running: int
    failed: int
    last_failed: str


@dataclass(frozen=True)
class HeldHere:
    garages: int
    people: int
    photos: int
    photo_bytes: int


def queue_state(at: datetime) -> QueueState:
    rows = DBTaskResult.objects.all()
    ready = rows.filter(status="READY")
    at_once, later = ready.filter(run_after=get_date_max()), ready.filter(run_after__lte=at)
    begun_by = (at_once.aggregate(at=Min("enqueued_at"))["at"], later.aggregate(at=Min("run_after"))["at"])
    failed = rows.filter(status="FAILED", finished_at__gte=at - LATELY)
    last = failed.aggregate(at=Max("finished_at"))["at"]
    return QueueState(
        waiting=at_once.count() + later.count(),
        since=min(filter(None, begun_by), default=None),
        running=rows.filter(status="RUNNING").count(),
        failed=failed.count(),
        last_failed=failed.filter(finished_at=last).values_list("task_path", flat=True).first() or "",
    )


def last_written() -> datetime | None:
    """When anything was saved last, in any garage."""
    return Garage.objects.aggregate(at=Max("written_at"))["at"]


def held_here() -> HeldHere:
    photos = Photo.objects.aggregate(bytes=Sum("bytes"))["bytes"] or 0
    people = Membership.objects.active().values("person").distinct().count()
    return HeldHere(Garage.objects.count(), people, Photo.objects.count(), photos)


def tasks_by_state(state: str) -> dict[str, int]:
    """How many tasks of each kind, by the last word of its path."""
    counted = DBTaskResult.objects.filter(status=state).values_list("task_path").annotate(Count("pk")).order_by()
    return {path.rpartition(".")[2]: count for path, count in counted}
