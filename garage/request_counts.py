"""Requests that were answered and how long they took, added up over all web processes of a server.

Each process keeps its own and writes them to a small file of its own; whoever is asked for them reads all the files.
What a process counted that is gone stays counted until the server starts again.
"""

import os
import time
from array import array
from bisect import bisect_left
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from threading import Lock

from django.conf import settings
from django.http import HttpRequest, HttpResponse

KINDS = ("read", "save")
ANSWERS = ("2xx", "3xx", "4xx", "5xx")
BOUNDS = (0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)  # seconds
# Of each kind: requests by answer, then by length, one that is longer than all bounds, and all their seconds.
WIDTH = len(ANSWERS) + len(BOUNDS) + 2
WATCHERS = ("/health/", "/metrics")  # who looks every few seconds would make each page look quick


class RequestCounts:
    def __init__(self) -> None:
        self._lock, self._process = Lock(), 0

    def add(self, kind: str, status: int, seconds: float) -> None:
        at = KINDS.index(kind) * WIDTH
        with self._lock:
            if self._process != os.getpid():
                self._begin()
            self._counts[at + min(max(status // 100 - 2, 0), len(ANSWERS) - 1)] += 1
            self._counts[at + len(ANSWERS) + bisect_left(BOUNDS, seconds)] += 1
            self._counts[at + WIDTH - 1] += seconds
            if self._file >= 0:
                with suppress(OSError):  # a full disk has worse to say, and says it elsewhere
                    os.pwrite(self._file, self._counts.tobytes(), 0)

    def _begin(self) -> None:
        self._process, self._file = os.getpid(), -1
        self._counts = array("d", [0.0]) * (WIDTH * len(KINDS))
        with suppress(OSError):
            settings.REQUEST_COUNTS_DIR.mkdir(parents=True, exist_ok=True)
            name = settings.REQUEST_COUNTS_DIR / f"{self._process}-{time.time_ns()}"
            self._file = os.open(name, os.O_WRONLY | os.O_CREAT | os.O_CLOEXEC, 0o600)


counts = RequestCounts()


def added_up() -> list[float]:
    """Of all processes, laid out as each has them."""
    whole = [0.0] * (WIDTH * len(KINDS))
    for file in _files():
        with suppress(OSError, ValueError):  # gone, or of another version
            for place, count in enumerate(array("d", file.read_bytes())):
                whole[place] += count
    return whole


def begin_anew() -> None:
    """As the server starts, before any of its processes counts."""
    for file in _files():
        file.unlink(missing_ok=True)


def _files() -> Iterator[Path]:
    with suppress(OSError):
        yield from settings.REQUEST_COUNTS_DIR.iterdir()


def counted(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    def middleware(request: HttpRequest) -> HttpResponse:
        began = time.perf_counter()
        answer = get_response(request)
        if not request.path.startswith(WATCHERS):
            kind = "save" if request.method == "POST" else "read"
            counts.add(kind, answer.status_code, time.perf_counter() - began)
        return answer

    return middleware
