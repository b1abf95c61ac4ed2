"""Read by gunicorn wherever it is started from this folder."""

import os

from garage import env

bind = env.text("BIND", "127.0.0.1:8000")
workers = env.number("WEB_PROCESSES", 2)
worker_class, threads = "gthread", 40  # a phone's slow upload holds a thread: thirty at once leave room for others
timeout, graceful_timeout = 60, 30
loglevel = "warning"
control_socket_disable = True
logger_class = "garage.access_log.MaskedLogger"
_kept = []


def when_ready(server):
    """One worker beside the server does what takes long; it is kept alive, and ends with it, however that ends."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "garage.settings")
    from django.conf import settings

    from garage import request_counts
    from garage.background import KeptWorker

    request_counts.begin_anew()
    if settings.PLAN_IN_BACKGROUND and settings.WORKER_BESIDE:
        _kept.append(KeptWorker())


def on_exit(server):
    for worker in _kept:
        worker.end()
