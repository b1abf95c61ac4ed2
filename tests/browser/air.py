"""The air between a phone and the garage: it cuts, loses answers, doubles, delays, and lets a gateway answer."""

import json
import re
import threading
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from http.client import HTTPConnection
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import urlsplit

ARRIVES, NEVER, LOST, LATE, TWICE, GATEWAY, ELSEWHERE, STALLS = (
    *("arrives", "never arrives", "its answer is lost", "arrives late, unheard", "arrives twice"),
    *("a gateway says that nobody is there", "a sign-on page of somebody else answers", "stops underway"),
)
DAY = re.compile(r"/paddock/\d")
STAYS = {"connection", "accept-encoding"}  # on the phone's side: answers are read here
OF_THE_WAY = {"connection", "keep-alive", "transfer-encoding", "content-length", "date", "server"}


@dataclass(frozen=True)
class Sent:
    """One request as it left the phone."""

    method: str
    path: str
    headers: list[tuple[str, str]]
    body: bytes


@dataclass(frozen=True)
class Answered:
    status: int
    headers: list[tuple[str, str]]
    body: bytes


# What answers in the garage's place, without its mark.
INSTEAD = {
    GATEWAY: Answered(502, [], b"Bad gateway"),
    ELSEWHERE: Answered(200, [("Content-Type", "text/html")], b"<title>Sign on</title>Who are you?"),
}


@dataclass
class Door:
    """To the garage (its address), for one request at a time: all threads of a test have one connection to SQLite.

    `answers` is what the garage said to each write (by its key), whether or not the phone got to hear it.
    """

    garage: str
    one: threading.Lock = field(default_factory=threading.Lock)
    answers: dict[str, list[dict[str, Any]]] = field(default_factory=dict)

    def carry(self, sent: Sent) -> Answered:
        to = urlsplit(self.garage)
        with self.one, closing(HTTPConnection(to.hostname or "", to.port, timeout=60)) as way:
            way.putrequest(sent.method, sent.path, skip_host=True, skip_accept_encoding=True)
            for name, value in sent.headers:
                way.putheader(name, value)
            way.endheaders(sent.body)
            got = way.getresponse()
            answer = Answered(got.status, got.getheaders(), got.read())
        self._note(sent, answer)
        return answer

    def _note(self, sent: Sent, answer: Answered) -> None:
        key = {name.lower(): value for name, value in sent.headers}.get("idempotency-key")
        if key and dict(answer.headers).get("Content-Type", "").endswith("json"):
            self.answers.setdefault(key, []).append(json.loads(answer.body))


class Air(ThreadingHTTPServer):
    """At an address of its own on this machine; `fate` says of each request for the day's pages what becomes of it."""

    daemon_threads = True

    def __init__(self, door: Door, fate: Callable[[str], str]) -> None:
        super().__init__(("127.0.0.1", 0), Carrier)
        self.door, self.fate = door, fate
        self.url = f"http://127.0.0.1:{self.server_port}"
        self.held: list[Sent] = []
        self.stalled, self.go_on = threading.Event(), threading.Event()
        threading.Thread(target=self.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()

    def bring_late(self) -> None:
        """What was held back arrives now; nobody waits for its answer any more."""
        held, self.held = self.held, []
        for sent in held:
            self.door.carry(sent)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A phone that went away meanwhile is what this is about."""


class Carrier(BaseHTTPRequestHandler):
    server: Air

    def do_GET(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        way = [(name, value) for name, value in self.headers.items() if name.lower() not in STAYS]
        self.meets(Sent(self.command, self.path, way, body))

    do_POST = do_GET

    def meets(self, sent: Sent) -> None:
        air = self.server
        fate = air.fate(sent.path) if DAY.match(sent.path) else ARRIVES
        if fate == STALLS:
            air.stalled.set()
            air.go_on.wait(60)
        if fate == LATE:
            air.held.append(sent)
        elif fate in INSTEAD:
            self.says(INSTEAD[fate])
        elif fate != NEVER:
            answers = [air.door.carry(sent) for _ in range(2 if fate == TWICE else 1)]
            if fate != LOST:
                self.says(answers[-1])

    def says(self, answer: Answered) -> None:
        self.send_response_only(answer.status)
        for name, value in answer.headers:
            if name.lower() not in OF_THE_WAY:
                self.send_header(name, value)
        self.send_header("Content-Length", str(len(answer.body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(answer.body)

    def log_message(self, *_: Any) -> None:
        """Nothing: what was said is written down at the door."""
