"""A server with as many web processes as are asked for and two workers apart, and what its processes take."""

import http.client
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

WORKERS = 2
TICK = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Served:
    """`web` and `workers` are the numbers of processes; the first of `web` only looks after the others."""

    port: int
    web: tuple[int, ...]
    workers: tuple[int, ...]


@contextmanager
def serving(processes: int, port: int, folder: Path) -> Iterator[Served]:
    begun = []
    try:
        begun = [_begin([sys.executable, "manage.py", "worker"], folder / "worker.log") for _ in range(WORKERS)]
        own = {"BIND": f"127.0.0.1:{port}", "WEB_PROCESSES": f"{processes}"}
        web = _begin([sys.executable, "-m", "gunicorn", "garage.wsgi"], folder / "web.log", own)
        begun.append(web)
        _wait_until_ready(port)
        children = Path(f"/proc/{web.pid}/task/{web.pid}/children").read_text().split()
        yield Served(port, (web.pid, *map(int, children)), tuple(process.pid for process in begun[:WORKERS]))
    finally:
        for process in reversed(begun):
            process.send_signal(signal.SIGTERM)
        for process in begun:
            with suppress(subprocess.TimeoutExpired):
                process.wait(20)
            process.kill()


def _begin(words: list[str], log: Path, own: dict[str, str] | None = None) -> "subprocess.Popen[bytes]":
    surroundings = {**os.environ, "WORKER_BESIDE": "off", "BACKUP_DAILY": "off", **(own or {})}
    with log.open("ab") as out:
        return subprocess.Popen(  # noqa: S603 (our own interpreter and commands)
            words, cwd=settings.BASE_DIR, env=surroundings, stdout=out, stderr=out
        )


def _wait_until_ready(port: int) -> None:
    for _ in range(300):
        with suppress(OSError):
            line = http.client.HTTPConnection("127.0.0.1", port, timeout=5)
            line.request("GET", "/health/ready/")
            if line.getresponse().status == 200:
                return
        time.sleep(0.2)
    raise SystemExit("The server did not start: its log says why.")


def megabytes(processes: tuple[int, ...]) -> float:
    """Memory that is theirs, what they share counted once over all of them (PSS)."""
    told = [Path(f"/proc/{process}/smaps_rollup").read_text() for process in processes]
    return sum(int(line.split()[1]) for text in told for line in text.splitlines() if line.startswith("Pss:")) / 1024


def cpu_seconds(processes: tuple[int, ...]) -> float:
    """Of user and system, so far."""
    told = [Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split() for process in processes]
    return sum(int(columns[11]) + int(columns[12]) for columns in told) / TICK
