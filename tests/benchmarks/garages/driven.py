"""Hands that read and tap over the wire, each in its own garage, and how long each waited."""

import http.client
import random
import threading
import time
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from urllib.parse import urlencode

from tests.benchmarks.garages.built import Hand, csrf

WRITES = 5  # one tap that is saved in so many
FORM = "application/x-www-form-urlencoded"
TOO_LONG = 60.0  # seconds


@dataclass
class Waited:
    """Seconds of each answer, and what went wrong."""

    reads: list[float] = field(default_factory=list)
    saves: list[float] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)
    began: float = field(default_factory=time.monotonic)
    seconds: float = 0.0

    @property
    def answered(self) -> int:
        return len(self.reads) + len(self.saves)


class Phone:
    """One hand's browser: a connection a tap, as a phone has after it lay in a pocket."""

    def __init__(self, port: int, hand: Hand, seed: int) -> None:
        self.port, self.hand, self.drawn = port, hand, random.Random(seed)
        self.secret, self.begun, self.turn = csrf(), False, seed

    def tap(self, waited: Waited) -> None:
        saves = self.drawn.randrange(WRITES) == 0
        began = time.monotonic()
        try:
            status, path = self._save() if saves else self._read()
        except OSError as error:
            status, path = 0, repr(error)
        if status in (200, 303):
            (waited.saves if saves else waited.reads).append(time.monotonic() - began)
        else:
            waited.errors.append(f"{status} {path}")

    def search(self) -> int:
        return self._ask("POST", "/plan/search/", {"seconds": "60"})

    def _read(self) -> tuple[int, str]:
        self.turn += 1
        path = self.hand.pages[self.turn % len(self.hand.pages)]
        return self._ask("GET", path), path

    def _save(self) -> tuple[int, str]:
        path = f"/jobs/{self.hand.job}/{'stop' if self.begun else 'start'}/"
        status = self._ask("POST", path, {})
        self.begun = not self.begun if status == 303 else self.begun
        return status, path

    def _ask(self, method: str, path: str, sent: dict[str, str] | None = None) -> int:
        headers = {"Cookie": f"sessionid={self.hand.session}; csrftoken={self.secret}", "Accept-Encoding": "gzip"}
        body = None
        if sent is not None:
            body = urlencode({"csrfmiddlewaretoken": self.secret, "key": str(uuid.uuid4()), **sent})
            headers["Content-Type"] = FORM
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=TOO_LONG)
        try:
            line.request(method, path, body, headers)
            answer = line.getresponse()
            answer.read()
            return answer.status
        finally:
            line.close()


def calm(phones: list[Phone], *, seconds: float, every: float) -> Waited:
    """All of them at once, each with a tap every so many seconds on average, as a thumb has."""

    def rest(phone: Phone) -> float:
        return phone.drawn.expovariate(1 / every)

    return _all(phones, seconds, rest)


def rush(phones: list[Phone], *, seconds: float) -> Waited:
    """Hands that never rest: what the server gives when it has nothing left."""
    return _all(phones, seconds, lambda phone: 0.0)


def _all(phones: list[Phone], seconds: float, rest: Callable[[Phone], float]) -> Waited:
    waited, until = Waited(), time.monotonic() + seconds

    def go(phone: Phone) -> None:
        while (left := until - time.monotonic()) > 0:
            time.sleep(min(rest(phone), left))
            if time.monotonic() < until:
                phone.tap(waited)

    threads = [threading.Thread(target=go, args=[phone]) for phone in phones]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    waited.seconds = time.monotonic() - waited.began
    return waited
