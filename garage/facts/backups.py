"""The backups that lie in the folder, and what became of the last that was asked for."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django_tasks_db.models import DBTaskResult

from garage.engine.backup.keeping import named_moment
from garage.models import Garage, Membership, Person

# Makes one; named by its path, since it proves the ledger, and parts know the garage, not the other way.
TASK = "parts.tasks.make_backup"


@dataclass(frozen=True)
class KeptBackup:
    file: Path
    at: datetime
    bytes: int
    daily: bool


@dataclass(frozen=True)
class AskedBackup:
    """`ended` is None while it waits or is made; `said` is what was made or what is wrong, if it could be said."""

    asked: datetime
    ended: datetime | None
    whole: bool
    said: str


def kept_backups() -> list[KeptBackup]:
    """Newest first; none where there is no folder or it cannot be read."""
    kept = []
    with suppress(OSError):
        for file in settings.BACKUP_DIR.iterdir():
            if named := named_moment(file.name):
                with suppress(FileNotFoundError):  # taken away while we looked
                    kept.append(KeptBackup(file, named[0], file.stat().st_size, named[1]))
    return sorted(kept, key=lambda one: (one.at, one.file.name), reverse=True)


def asked_backup() -> AskedBackup | None:
    """The last that a worker was asked for."""
    row = DBTaskResult.objects.filter(task_path=TASK).order_by("-enqueued_at").first()
    if row is None:
        return None
    answer = row.return_value if isinstance(row.return_value, dict) else {}
    return AskedBackup(row.enqueued_at, row.finished_at, bool(answer.get("whole")), str(answer.get("said", "")))


def garages_of_others(person: Person) -> int:
    """How many garages on this server the person is no owner of."""
    own = Membership.objects.active().owners().of(person)
    return Garage.objects.exclude(pk__in=own.values("garage")).count()
