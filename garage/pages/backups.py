"""Backups in words: when the last was made, where they lie, and what became of what was asked for."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings

from garage.engine.sizes import size_words
from garage.facts.backups import AskedBackup, KeptBackup, asked_backup, kept_backups

OLD = timedelta(days=2)  # a day's copy that failed twice


@dataclass(frozen=True)
class BackupRow:
    at: datetime
    size: str
    name: str
    how: str


@dataclass(frozen=True)
class BackupsPage:
    """`making` while one is waited for; `wrong` what the last that was asked for said, if none has been made since."""

    rows: list[BackupRow]
    folder: str
    daily: bool
    making: datetime | None
    wrong: str
    old: bool

    @property
    def last(self) -> BackupRow | None:
        return self.rows[0] if self.rows else None


def backups_page(at: datetime) -> BackupsPage:
    kept, asked = kept_backups(), asked_backup()
    return BackupsPage(
        rows=[_row(one) for one in kept],
        folder=str(settings.BACKUP_DIR),
        daily=settings.BACKUP_DAILY,
        making=asked.asked if asked and asked.ended is None else None,
        wrong=_wrong(asked, kept),
        old=bool(kept) and at - kept[0].at > OLD,
    )


def _row(kept: KeptBackup) -> BackupRow:
    return BackupRow(kept.at, size_words(kept.bytes), kept.file.name, "by itself" if kept.daily else "by hand")


def _wrong(asked: AskedBackup | None, kept: list[KeptBackup]) -> str:
    if asked is None or asked.ended is None or asked.whole:
        return ""
    # One that broke off may have lain there whole before that; one that says what is wrong with it does not count.
    since = asked.ended if asked.said else asked.asked
    if kept and kept[0].at >= since:
        return ""
    return asked.said or "The last backup that was asked for broke off: the server's log says why."
