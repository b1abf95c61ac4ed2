"""The server in words, for whoever runs it: the same on the page and in the terminal."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import connection

from garage.engine.moments import moment_words
from garage.engine.sizes import size_words
from garage.facts.backups import kept_backups
from garage.facts.server import held_here, last_written, queue_state
from garage.pages.backups import OLD
from garage.pages.health import LEAST_FREE_MB, free_disk_mb
from garage.version import migrations_to_come, version

AHEAD = timedelta(minutes=1)
SLOW = timedelta(minutes=15)  # a worker takes up what waits within seconds; a search lasts minutes


@dataclass(frozen=True)
class ServerLine:
    """`wrong`: somebody has to do something about it."""

    name: str
    words: str
    wrong: bool = False


def server_lines(at: datetime, zone: ZoneInfo) -> list[ServerLine]:
    held = held_here()
    return [
        ServerLine("Version", version()),
        _database(),
        _migrations(),
        _queue(at, zone),
        _disk(),
        *_clock(at, zone),
        _backup(at, zone),
        ServerLine("Backups lie in", str(settings.BACKUP_DIR)),
        ServerLine("Photos lie in", f"{settings.PHOTO_DIR}: {held.photos}, {size_words(held.photo_bytes)}"),
        ServerLine("Held here", f"{_count(held.garages, 'garage')}, {_count(held.people, 'person', 'people')}"),
    ]


def _count(number: int, one: str, several: str = "") -> str:
    return f"{number} {one if number == 1 else several or f'{one}s'}"


def _database() -> ServerLine:
    name = connection.settings_dict["NAME"]
    return ServerLine("Database", f"{connection.display_name}, {name}")


def _migrations() -> ServerLine:
    to_come = migrations_to_come()
    if not to_come:
        return ServerLine("Migrations", "all applied")
    return ServerLine("Migrations", f"{_count(len(to_come), 'is', 'are')} missing: run “manage.py migrate”", wrong=True)


def _queue(at: datetime, zone: ZoneInfo) -> ServerLine:
    queue = queue_state(at)
    said = [f"{queue.waiting} waiting", f"{queue.running} under way", f"{queue.failed} failed in the last week"]
    if queue.last_failed:
        said.append(f"the last was {queue.last_failed}: the log says why")
    late = queue.since is not None and at - queue.since > SLOW
    if queue.since and late:
        said.append(f"one waits since {moment_words(queue.since, zone, at)}: is “manage.py worker” running?")
    return ServerLine("Queue", "; ".join(said), wrong=late or bool(queue.failed))


def _clock(at: datetime, zone: ZoneInfo) -> list[ServerLine]:
    """Only where it is wrong: it stands before what was written."""
    last = last_written()
    if last is None or last - at <= AHEAD:
        return []
    said = f"stands at {moment_words(at, zone, at)}, and something was saved at {moment_words(last, zone, at)}: set it"
    return [ServerLine("Clock", f"{said} right", wrong=True)]


def _disk() -> ServerLine:
    free = free_disk_mb()
    return ServerLine("Disk", f"{size_words(free * 1_000_000)} free", wrong=free < LEAST_FREE_MB)


def _backup(at: datetime, zone: ZoneInfo) -> ServerLine:
    kept = kept_backups()
    if not kept:
        return ServerLine("Last backup", "none yet", wrong=True)
    words = f"{moment_words(kept[0].at, zone, at)}, {size_words(kept[0].bytes)}; {_count(len(kept), 'file')} kept"
    return ServerLine("Last backup", words, wrong=at - kept[0].at > OLD)
