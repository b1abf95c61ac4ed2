"""Work beside the answer: in a thread for what is short, by a worker or a process of its own for what is long."""

import logging
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from datetime import datetime
from typing import Any

from django.conf import settings
from django.db import connections, transaction
from django.utils.module_loading import import_string

log = logging.getLogger("garage.background")


def beside(work: Callable[[], None]) -> None:
    """Have it done once the answer is on its way, with connections of its own; an error is logged.

    Whatever must be done is looked after by somebody else as well: a restart of the server ends this.
    """
    if settings.PLAN_IN_BACKGROUND:
        threading.Thread(target=_alone, args=[work], daemon=True).start()
    else:
        work()


def _alone(work: Callable[[], None]) -> None:
    try:
        work()
    except Exception:
        log.exception("work beside the answer broke off")
    finally:
        connections.close_all()


def enqueue(task: str, *args: Any, after: datetime | None = None) -> None:
    """Have a worker do a task, named by its path, not before a moment; with the transaction or not at all."""
    import_string(task).using(run_after=after).enqueue(*args)
    transaction.on_commit(_worker_of_the_dev_server, robust=True)


def spawn(command: str, *words: str, stdin: int = subprocess.DEVNULL) -> "subprocess.Popen[bytes]":
    """Begin one of our own management commands and do not wait for it."""
    return subprocess.Popen(  # noqa: S603 (no shell; our own interpreter and commands, and keys of rows)
        [sys.executable, str(settings.BASE_DIR / "manage.py"), command, *words],
        cwd=settings.BASE_DIR,
        stdin=stdin,
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )


def worker_beside() -> "subprocess.Popen[bytes]":
    """A worker that ends with the process which started it, however that ends: its standard input ends then."""
    return spawn("worker", "--beside", stdin=subprocess.PIPE)


class KeptWorker:
    """A worker beside the server, begun again when it ends before the server does."""

    # Seconds until it is begun again: one that cannot even begin is tried ever more seldom, and takes no core.
    REST, MOST_REST = 3.0, 300.0

    def __init__(self) -> None:
        self._over = threading.Event()
        self._worker: subprocess.Popen[bytes] | None = None
        threading.Thread(target=self._keep, daemon=True).start()

    def _keep(self) -> None:
        rest = self.REST
        while not self._over.is_set():
            began, self._worker = time.monotonic(), worker_beside()
            self._worker.wait()
            lasted = time.monotonic() - began > self.MOST_REST
            self._over.wait(rest := self.REST if lasted else min(2 * rest, self.MOST_REST))

    def end(self) -> None:
        """A search that is cut off is swept, and begun again."""
        self._over.set()
        if self._worker:
            self._worker.kill()


_dev_worker: list["subprocess.Popen[bytes]"] = []


def _worker_of_the_dev_server() -> None:
    """`runserver` has no hook for it, so that its first task starts the worker."""
    if settings.WORKER_BESIDE and "runserver" in sys.argv and not _dev_worker:
        _dev_worker.append(worker_beside())
