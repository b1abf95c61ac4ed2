"""Whether something slow is done while a write of a page holds its lock, told by the transaction that `once` opens.

On SQLite every other writer waits from a transaction's first statement to its commit, on PostgreSQL every other
writer of the garage: nothing is planned, drawn, shrunk, hashed, mailed, run or slept in between.
"""

import importlib
import sys
import threading
from collections.abc import Callable
from functools import wraps
from types import SimpleNamespace
from typing import Any

HERE = threading.local()
# Functions, replaced wherever they were imported to; methods, replaced on their class.
SLOW = {
    "plans": ("builds.planner.search:plan", "builds.planner.again:planned_in_order"),
    "runs the odds": ("builds.odds.simulate:simulate", "builds.odds.simulate:runs"),
    "draws a sheet": ("reportlab.pdfgen.canvas:Canvas.save", "garage.sheets.frame:sheet"),
    "draws a page": ("django.template.backends.django:Template.render",),
    "reads a picture": ("PIL.Image:open", "garage.pictures:read_picture"),
    "writes a photo's files": ("garage.photo_files:write", "garage.photo_files:put"),
    "reads a workbook": ("openpyxl:load_workbook",),
    "hashes a password": (
        "django.contrib.auth.hashers:MD5PasswordHasher.encode",
        "django.contrib.auth.hashers:PBKDF2PasswordHasher.encode",
    ),
    "sends mail": ("django.core.mail.message:EmailMessage.send",),
    "begins a process": ("subprocess:Popen.__init__",),
    "opens a zip": ("zipfile:ZipFile.__init__",),
    "asks the network": ("urllib.request:urlopen",),
    "sleeps": ("time:sleep",),
}


def depth() -> int:
    """How many transactions of writes are open in this thread: transactions of tests stand round whole requests."""
    return getattr(HERE, "depth", 0)


class Watch:
    """`told` is what was done in a transaction, in words."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def arm(self) -> None:
        _count_writes()
        for what, names in SLOW.items():
            for name in names:
                self._wrap(what, name)

    def _wrap(self, what: str, name: str) -> None:
        module, _, path = name.partition(":")
        *within, last = path.split(".")
        holder: Any = importlib.import_module(module)
        for part in within:
            holder = getattr(holder, part)
        real = getattr(holder, last)
        wrapped = self._watched(what, real)
        setattr(holder, last, wrapped)
        if not within:  # wherever it was imported to by its name
            for other in list(sys.modules.values()):
                if getattr(other, "__dict__", {}).get(last) is real:
                    setattr(other, last, wrapped)

    def _watched(self, what: str, real: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(real)
        def watched(*args: Any, **more: Any) -> Any:
            if depth():
                self.told.append(f"{what}: {real.__qualname__}")
            return real(*args, **more)

        return watched


def _count_writes() -> None:
    """`once` is the one place where a page's write begins and ends its transaction."""
    from garage import http

    real = http.transaction.atomic

    class Held:
        def __init__(self) -> None:
            self.atomic = real()

        def __enter__(self) -> None:
            self.atomic.__enter__()
            HERE.depth = depth() + 1

        def __exit__(self, *error: Any) -> Any:
            HERE.depth -= 1
            return self.atomic.__exit__(*error)

    http.transaction = SimpleNamespace(atomic=Held, set_rollback=http.transaction.set_rollback)
