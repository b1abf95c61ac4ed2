"""A backup a day, by itself: when one is due, asking for it, and taking away those that are past keeping."""

from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction

from garage.background import enqueue
from garage.engine.backup.keeping import spared
from garage.facts.backups import TASK, asked_backup, kept_backups

EVERY = timedelta(days=1)
PATIENCE = timedelta(hours=1)  # what was asked for this long ago and has not ended is asked for again


def ask(*, daily: bool, at: datetime) -> bool:
    """Have a worker make one; False while one is being made."""
    last = asked_backup()
    if last and last.ended is None and at - last.asked < PATIENCE:
        return False
    with transaction.atomic():
        enqueue(TASK, daily)
    return True


def ask_when_due(*, at: datetime) -> bool:
    """Once a day where the settings want it, counted from the last of any kind; after a fault an hour later again."""
    last, asked = kept_backups()[:1], asked_backup()
    if not settings.BACKUP_DAILY or (last and at - last[0].at < EVERY) or (asked and at - asked.asked < PATIENCE):
        return False
    return ask(daily=True, at=at)


def tidy() -> list[str]:
    """Remove daily backups past keeping, and say which; what somebody asked for by hand stays."""
    daily = {backup.file.name: backup for backup in kept_backups() if backup.daily}
    past = sorted(daily.keys() - spared({name: backup.at for name, backup in daily.items()}))
    for name in past:
        daily[name].file.unlink(missing_ok=True)
    return past
