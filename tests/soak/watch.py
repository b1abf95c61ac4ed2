"""Within the server: how long each transaction waited for its lock, and how long it held it, line by line in a file.

On SQLite a transaction has the one lock from its BEGIN on; on PostgreSQL a write has its garage's row from the moment
on at which it stands in line.
"""

import json
import os
import sys
import threading
import time
from functools import wraps
from pathlib import Path

from django.apps import AppConfig

HERE = threading.local()


def named(get_response):
    """Middleware: the name of the address that is asked for, for the line."""

    def middleware(request):
        HERE.name = ""
        return get_response(request)

    def view(request, *args):
        HERE.name = request.resolver_match.url_name

    middleware.process_view = view
    return middleware


class Watch(AppConfig):
    name = "tests.soak.watch"
    label = "soak_watch"
    path = str(Path(__file__).parent)

    def ready(self):
        from django.conf import settings

        target = settings.DATA_DIR / f"locks-{os.getpid()}.jsonl"
        watch(lambda line: write(target.with_name(f"locks-{os.getpid()}.jsonl"), line))


def write(file, line):
    """In one go, so that what a killed process wrote is whole."""
    handle = os.open(file, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
    try:
        os.write(handle, f"{json.dumps(line)}\n".encode())
    finally:
        os.close(handle)


def _opener(frame):
    """The file of ours that opened it."""
    while frame and (frame.f_code.co_filename.endswith("contextlib.py") or "site-packages" in frame.f_code.co_filename):
        frame = frame.f_back
    return Path(frame.f_code.co_filename).name if frame else "django"


def watch(tell):
    """`tell` gets [name, seconds waited, seconds held] of each outermost transaction."""
    from django.db import transaction

    from garage import http

    enter, leave, stand = transaction.Atomic.__enter__, transaction.Atomic.__exit__, http._stand_in_line

    @wraps(enter)
    def entered(atomic):
        HERE.depth = getattr(HERE, "depth", 0) + 1
        began = time.monotonic()
        try:
            enter(atomic)
        except BaseException:
            HERE.depth -= 1
            raise
        if HERE.depth == 1:
            HERE.file = _opener(sys._getframe(1))
            HERE.since, HERE.waited = time.monotonic(), time.monotonic() - began

    @wraps(leave)
    def left(atomic, *error):
        try:
            return leave(atomic, *error)
        finally:
            HERE.depth -= 1
            if HERE.depth == 0:
                name = getattr(HERE, "name", "") or f"beside: {HERE.file}"
                tell([name, HERE.waited, time.monotonic() - HERE.since])

    @wraps(stand)
    def stood(request):
        began = time.monotonic()
        last = stand(request)
        HERE.since, HERE.waited = time.monotonic(), HERE.waited + time.monotonic() - began
        return last

    transaction.Atomic.__enter__, transaction.Atomic.__exit__, http._stand_in_line = entered, left, stood
