"""Do what is done beside the server: search for a better plan, find the odds of a new one."""

import logging
import os
import signal
import sys
import threading
import time
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser
from django.db import DatabaseError, close_old_connections

from garage import clock
from garage.actions.daily_backup import ask_when_due
from garage.background import enqueue

log = logging.getLogger("garage.worker")

EVERY = 1.0  # seconds between two looks at an empty queue
BACKUP_LOOK = 600.0  # seconds between two looks whether a backup is due
NEWS_LOOK = 300.0  # seconds between two looks whether there is news for anybody
NEWS = "builds.news.tasks.send_news"


class Command(BaseCommand):
    help = "Work through the queue, for as long as it runs. The server starts one unless WORKER_BESIDE is off."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--beside", action="store_true", help="end when standard input ends")

    def handle(self, *args: Any, beside: bool, **options: Any) -> None:
        os.nice(10)  # whoever taps goes first
        if beside:
            threading.Thread(target=_end_with_input, daemon=True).start()
        threading.Thread(target=_daily_backups, daemon=True).start()
        if settings.SENDS_MAIL:
            threading.Thread(target=_news, daemon=True).start()
        call_command("db_worker", interval=EVERY, reload=False, startup_delay=False, verbosity=0)


def _end_with_input() -> None:
    """Nothing is ever written to it: it ends with the process that holds the other end."""
    sys.stdin.buffer.read()
    os.kill(os.getpid(), signal.SIGKILL)


def _daily_backups() -> None:
    while True:
        look_for_backup()
        time.sleep(BACKUP_LOOK)


def _news() -> None:
    while True:
        ask_for_news()
        time.sleep(NEWS_LOOK)


def ask_for_news() -> None:
    """Of a database that is busy or away at the next look."""
    try:
        enqueue(NEWS)
    except DatabaseError:
        log.exception("news could not be asked for")
    finally:
        close_old_connections()


def look_for_backup() -> None:
    """A database that is busy or away is asked again at the next look."""
    try:
        ask_when_due(at=clock.now())
    except DatabaseError:
        log.exception("whether a backup is due could not be seen")
    finally:
        close_old_connections()
