"""Read by gunicorn wherever it is started from this folder."""

import os

logger_class = "garage.access_log.MaskedLogger"
_kept = []


def when_ready(server):
    """One worker beside the server does what takes long; it is kept alive, and ends with it, however that ends."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "garage.settings")
    from django.conf import settings

    from garage.background import KeptWorker

    if settings.PLAN_IN_BACKGROUND and settings.WORKER_BESIDE:
        _kept.append(KeptWorker())


def on_exit(server):
    for worker in _kept:
        worker.end()
