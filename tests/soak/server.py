"""The server as `make run` starts it, on a folder and a port of its own, and ways to kill it. Linux: reads /proc."""

import os
import random
import signal
import socket
import subprocess
import sys
import time
from contextlib import suppress
from http.client import HTTPConnection, HTTPException
from pathlib import Path

from tests.house.places import ROOT

WEB, ALL, WORKER = "a web process", "the whole server", "the planning worker"
# Most often the process that answers; now and then everything at once, as when the machine goes off.
WEIGHTS = {WEB: 7, ALL: 1, WORKER: 2}
UP_WITHIN = 90.0


def free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return asked.getsockname()[1]


def parents() -> dict[int, tuple[int, str]]:
    """By process, its parent and its command line."""
    found = {}
    for folder in Path("/proc").glob("[0-9]*"):
        with suppress(OSError, IndexError, ValueError):
            told = (folder / "stat").read_text().rpartition(")")[2].split()
            if told[0] != "Z":
                command = (folder / "cmdline").read_bytes().replace(b"\0", b" ").decode(errors="replace")
                found[int(folder.name)] = (int(told[1]), command)
    return found


class Server:
    """`killed` counts kills by kind; `down` is how long the whole server was away each time, in seconds."""

    def __init__(self, folder: Path, env: dict[str, str]) -> None:
        self.folder, self.port = folder, free_port()
        self.env = {**env, "BIND": f"127.0.0.1:{self.port}", "PUBLIC_URL": f"http://127.0.0.1:{self.port}"}
        self.process: subprocess.Popen[bytes] | None = None
        self.killed: dict[str, int] = dict.fromkeys(WEIGHTS, 0)
        self.down: list[float] = []

    def start(self) -> None:
        log = (self.folder / "server.log").open("ab")
        self.process = subprocess.Popen(
            [sys.executable, "-m", "gunicorn", "garage.wsgi"],
            cwd=ROOT, env=self.env, stdout=log, stderr=log, start_new_session=True,
        )  # fmt: skip
        log.close()
        self.wait()

    def wait(self) -> None:
        until = time.monotonic() + UP_WITHIN
        while time.monotonic() < until:
            if self.ready():
                return
            time.sleep(0.05)
        raise RuntimeError(f"The server did not come up: see {self.folder / 'server.log'}.")

    def ready(self) -> bool:
        asked = HTTPConnection("127.0.0.1", self.port, timeout=30)
        try:
            asked.request("GET", "/health/live/")
            return asked.getresponse().status == 200
        except (OSError, HTTPException):
            return False
        finally:
            asked.close()

    def children(self, of: str) -> list[int]:
        assert self.process
        beside = of == WORKER
        return [
            process
            for process, (parent, command) in parents().items()
            if parent == self.process.pid and ("manage.py worker" in command) == beside
        ]

    def kill(self, kind: str) -> bool:
        """With SIGKILL; whether there was anything to kill. What is begun again by itself is not waited for."""
        assert self.process
        if kind == ALL:
            began = time.monotonic()
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()
            self.start()
            self.down.append(time.monotonic() - began)
        else:
            there = self.children(kind)
            if not there:
                return False
            with suppress(ProcessLookupError):
                os.kill(random.choice(there), signal.SIGKILL)
        self.killed[kind] += 1
        return True

    def stop(self) -> None:
        """As somebody who ends it at the terminal; its worker ends with it."""
        if self.process and self.process.poll() is None:
            os.killpg(self.process.pid, signal.SIGTERM)
            try:
                self.process.wait(30)
            except subprocess.TimeoutExpired:
                os.killpg(self.process.pid, signal.SIGKILL)
                self.process.wait()

    def most_memory(self) -> dict[str, float]:
        """The most that each process ever held, in MB (VmHWM), by what it is."""
        assert self.process
        mine = [(WEB, pid) for pid in self.children(WEB)] + [(WORKER, pid) for pid in self.children(WORKER)]
        most: dict[str, float] = {}
        for kind, pid in mine:
            with suppress(OSError):
                lines = Path(f"/proc/{pid}/status").read_text().splitlines()
                held = next(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM"))
                most[kind] = max(most.get(kind, 0.0), held)
        return most
