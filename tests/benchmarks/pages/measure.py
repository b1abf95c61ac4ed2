"""One request measured: queries, CPU time, and what goes over the wire."""

import gc
import uuid
from dataclasses import dataclass
from statistics import median
from time import process_time
from typing import Any

from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

TIMES, LONG_MS = 5, 1000
PACKED = {"Accept-Encoding": "gzip"}


@dataclass(frozen=True)
class Measured:
    """`ms` of CPU, the median of several; `raw` and `wire` in bytes; `location` where a write leads."""

    status: int
    queries: int
    ms: float
    raw: int
    wire: int
    location: str = ""


def measured(
    client: Client, path: str, sent: dict[str, str] | None = None, headers: dict[str, str] | None = None
) -> Measured:
    """Read, or where something is `sent` written: that counts once, so each time all but the last is taken back."""
    more = {**(headers or {}), **PACKED}
    plain = _ask(client, path, sent, headers or {}, keep=False)
    with CaptureQueriesContext(connection) as asked:
        _ask(client, path, sent, more, keep=False)
    queries = sum("SAVEPOINT" not in query["sql"] for query in asked)
    times: list[float] = []
    gc.collect()
    while len(times) < TIMES and sum(times) < LONG_MS:
        begun = process_time()
        answer = _ask(client, path, sent, more, keep=False)
        times.append((process_time() - begun) * 1000)
    last = _ask(client, path, sent, more, keep=True)
    return Measured(
        last.status_code, queries, median(times), _size(plain), _size(answer), last.headers.get("Location", "")
    )


def _size(answer: Any) -> int:
    return sum(map(len, answer.streaming_content)) if answer.streaming else len(answer.content)


def _ask(client: Client, path: str, sent: dict[str, str] | None, headers: dict[str, str], *, keep: bool) -> Any:
    if sent is None:
        return client.get(path, headers=headers)
    with transaction.atomic():
        answer = client.post(path, {"key": str(uuid.uuid4()), **sent}, headers=headers)
        transaction.set_rollback(not keep)
    return answer
