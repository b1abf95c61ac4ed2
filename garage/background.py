"""Work beside the answer: in a thread for what is short, in a process of its own for what is long."""

import logging
import subprocess
import sys
import threading
from collections.abc import Callable

from django.conf import settings
from django.db import connections

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


def spawn(command: str, *words: str) -> None:
    """Begin one of our own management commands and do not wait for it."""
    subprocess.Popen(  # noqa: S603 (our own interpreter, our own command)
        [sys.executable, str(settings.BASE_DIR / "manage.py"), command, *words],
        cwd=settings.BASE_DIR,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )
