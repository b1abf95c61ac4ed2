"""One soak: filled, worked in, killed, and counted."""

import json
import random
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.soak.acts import Writer
from tests.soak.browser import Browser, Figures
from tests.soak.home import Home
from tests.soak.locked import hold
from tests.soak.server import WEIGHTS, WORKER, Server
from tests.soak.uploads import Uploads, uploads

# Between two kills at the least, in seconds; and how long it is waited for a write that is answered in between, so that
# what is killed is a server at work.
REST, AT_WORK = 0.3, 20.0
WORKER_BACK = 330.0


@dataclass
class Soak:
    """What is asked for, in seconds; and what came of it."""

    seconds: float
    kills: int
    writers: int = 8
    locked: float = 30.0
    seed: int = 7
    slow: float = 15.0  # for so long thirty pictures are on their way
    uploads: Uploads = field(default_factory=Uploads)
    figures: Figures = field(default_factory=Figures)
    ready: list[float] = field(default_factory=list)  # seconds of /health/live/ while the database was locked
    wrong: list[str] = field(default_factory=list)
    found: dict[str, list[int]] = field(default_factory=dict)
    refused: Counter[str] = field(default_factory=Counter)
    killed: dict[str, int] = field(default_factory=dict)
    down: list[float] = field(default_factory=list)
    memory: dict[str, float] = field(default_factory=dict)
    locks: dict[str, list[tuple[float, float]]] = field(default_factory=dict)
    took: float = 0.0
    answered: int = 0  # writes when something was killed last

    def run(self, home: Home, place: dict[str, Any]) -> None:
        server = Server(home.folder, home.env)
        over = threading.Event()
        for file in home.folder.glob("locks-*.jsonl"):
            file.unlink()  # of what filled it
        server.start()
        try:
            if self.slow:
                self.uploads = uploads(server, home, place, self.slow)
                self.wrong += self.uploads.wrong
            people = [Writer(n, place, Browser(server.port, self.figures), self.seed) for n in range(self.writers)]
            for writer in people:  # a link lets in once: before anything is killed
                writer.browser.sign_in(writer.mine["token"])
            threads = [threading.Thread(target=writer.work, args=[over]) for writer in people]
            began = time.monotonic()
            for thread in threads:
                thread.start()
            try:
                self._disturb(server, home, began)
            finally:
                over.set()
                for thread in threads:
                    thread.join()
            self.took = time.monotonic() - began
            self.memory = server.most_memory()
            if self.killed[WORKER] and not self._worker_is_back(server):
                self.wrong.append("the planning worker was killed and is not back")
        finally:
            server.stop()
        self._count(home, place, people)

    def _disturb(self, server: Server, home: Home, began: float) -> None:
        """Kills at random moments, evenly over the time; in the middle the database is locked once."""
        draw, middle = random.Random(self.seed), not self.locked
        while (left := began + self.seconds - time.monotonic()) > 0:
            if not middle and left < self.seconds / 2:
                middle = True
                self._lock(server, home)
                continue
            to_kill = self.kills - sum(server.killed.values())
            if to_kill <= 0:
                time.sleep(min(left, 0.5))
                continue
            time.sleep(min(left, REST + draw.expovariate(1) * max(0.05, left / to_kill - REST)))
            if self._at_work():
                server.kill(draw.choices(list(WEIGHTS), list(WEIGHTS.values()))[0])
        self.killed, self.down = server.killed, server.down

    def _at_work(self) -> bool:
        """Whether a write was answered since the last kill."""
        until = time.monotonic() + AT_WORK
        while len(self.figures.writes) <= self.answered and time.monotonic() < until:
            time.sleep(0.05)
        before, self.answered = self.answered, len(self.figures.writes)
        return self.answered > before

    def _lock(self, server: Server, home: Home) -> None:
        """Meanwhile somebody looks at a page that writes nothing."""
        thread = threading.Thread(target=hold, args=[home, self.locked])
        thread.start()
        while thread.is_alive():
            began = time.monotonic()
            if server.ready():
                self.ready.append(time.monotonic() - began)
            time.sleep(0.5)
        thread.join()

    def _worker_is_back(self, server: Server) -> bool:
        until = time.monotonic() + WORKER_BACK
        while time.monotonic() < until:
            if server.children(WORKER):
                return True
            time.sleep(0.5)
        return False

    def _count(self, home: Home, place: dict[str, Any], people: list[Writer]) -> None:
        told = [act for writer in people for act in writer.told]
        for writer in people:
            self.refused += writer.refused
            self.wrong += writer.astray
        self.wrong += self.figures.broken
        proof = json.loads(home.run("-m", "tests.soak.proof", sent=json.dumps({"told": told, "place": place})))
        self.found = proof["found"]
        self.wrong += proof["wrong"]
        self.wrong += [
            f"{kind}: {there} of {many} are there" for kind, (many, there, _) in self.found.items() if there != many
        ]
        self.wrong += [f"{kind}: {more} are there twice" for kind, (_, _, more) in self.found.items() if more]
        self.locks = read_locks(home.folder)


def read_locks(folder: Path) -> dict[str, list[tuple[float, float]]]:
    """By address, seconds waited and held of each transaction."""
    locks: dict[str, list[tuple[float, float]]] = {}
    for file in folder.glob("locks-*.jsonl"):
        for line in file.read_text().splitlines():
            name, waited, held = json.loads(line)
            locks.setdefault(name, []).append((waited, held))
    return locks
