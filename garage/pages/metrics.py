"""The server's figures for a program that watches it: plain, few, and nothing of any garage."""

from collections.abc import Iterator
from datetime import datetime
from itertools import accumulate

from django.db import connection

from garage.engine.open_metrics import Family, Sample, gauge, text_of
from garage.facts.backups import kept_backups
from garage.facts.server import QueueState, queue_state, tasks_by_state
from garage.models import Garage
from garage.pages.health import database_bytes, free_disk_mb
from garage.request_counts import ANSWERS, BOUNDS, KINDS, WIDTH, added_up
from garage.version import version


def metrics_text(at: datetime) -> str:
    return text_of(_families(at))


def _families(at: datetime) -> Iterator[Family]:
    said = "Which version answers, on which database."
    about = {"version": version(), "database": connection.vendor}
    yield Family("witness_mark", "info", said, (Sample(1, "_info", about),))
    yield from _requests(added_up())
    yield from _queue(at, queue_state(at))
    yield gauge("witness_mark_disk_free_bytes", "Room left for data and photos.", free_disk_mb() * 1_000_000, "bytes")
    yield gauge("witness_mark_database_bytes", "Size of the database.", database_bytes(), "bytes")
    yield gauge("witness_mark_garages", "Garages kept here.", Garage.objects.count())
    kept = kept_backups()
    age = (at - kept[0].at).total_seconds() if kept else None
    said = "Since the newest backup; nothing where there is none."
    yield gauge("witness_mark_backup_age_seconds", said, age, "seconds")
    yield gauge("witness_mark_backups", "Backups that are kept.", len(kept))


def _requests(counts: list[float]) -> Iterator[Family]:
    by_answer, lengths = [], []
    for number, kind in enumerate(KINDS):
        of_kind = counts[number * WIDTH : (number + 1) * WIDTH]
        answers, longest, seconds = of_kind[: len(ANSWERS)], of_kind[len(ANSWERS) : -1], of_kind[-1]
        by_answer += [
            Sample(count, "_total", {"kind": kind, "answer": answer})
            for answer, count in zip(ANSWERS, answers, strict=True)
        ]
        for bound, count in zip((*BOUNDS, "+Inf"), accumulate(longest), strict=True):
            lengths.append(Sample(count, "_bucket", {"kind": kind, "le": str(bound)}))
        lengths += [Sample(sum(answers), "_count", {"kind": kind}), Sample(seconds, "_sum", {"kind": kind})]
    said = "Requests answered since the server started, those that watch it left out."
    yield Family("witness_mark_requests", "counter", said, tuple(by_answer))
    yield Family("witness_mark_request_seconds", "histogram", "How long they took.", tuple(lengths), "seconds")


def _queue(at: datetime, queue: QueueState) -> Iterator[Family]:
    waits = (at - queue.since).total_seconds() if queue.since else 0
    yield gauge("witness_mark_queue_waiting", "Tasks whose turn has come and that no worker has taken.", queue.waiting)
    yield gauge("witness_mark_queue_longest_wait_seconds", "Of the one that waits longest.", waits, "seconds")
    yield gauge("witness_mark_queue_failed", "Tasks that failed in the last week.", queue.failed)
    running = tuple(Sample(count, "", {"task": name}) for name, count in sorted(tasks_by_state("RUNNING").items()))
    yield Family("witness_mark_tasks_running", "gauge", "What workers do now: searches, odds, backups, news.", running)
