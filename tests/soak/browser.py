"""A browser's side: a session, forms as they were drawn, and what was not answered sent again until it is."""

import json
import re
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import unescape
from http.client import HTTPConnection, HTTPException
from typing import Any
from urllib.parse import urlencode

GIVES_UP = 600.0
HIDDEN = re.compile(r'<input[^>]*type="hidden"[^>]*>')
NAME, VALUE = re.compile(r'name="([^"]*)"'), re.compile(r'value="([^"]*)"')
EDGE = "----soak"
# As a tap is sent where scripts are on: the page answers its main part alone.
TAP = {"HX-Request": "true", "HX-Target": "main"}


@dataclass
class Answer:
    status: int
    headers: Mapping[str, str]
    body: str

    @property
    def location(self) -> str:
        return self.headers.get("Location", "")

    def hidden(self, name: str) -> str:
        """The value of a hidden field of the page's main part; the last one, below what stands round it."""
        found = [tag for tag in HIDDEN.findall(self.body) if NAME.search(tag) and NAME.search(tag)[1] == name]
        value = VALUE.search(found[-1]) if found else None
        return unescape(value[1]) if value else ""


@dataclass
class Figures:
    """Seconds of each answer by reading and writing, what was cut off, what asked to wait, what was given twice."""

    reads: list[float] = field(default_factory=list)
    writes: list[float] = field(default_factory=list)
    cut: int = 0
    waited: int = 0
    replayed: int = 0
    broken: list[str] = field(default_factory=list)


class Browser:
    """One person's; `figures` may be shared by all. Not for two threads at once, but for `twin`s."""

    def __init__(self, port: int, figures: Figures) -> None:
        self.port, self.figures, self.cookies = port, figures, {}
        self.line: HTTPConnection | None = None

    def twin(self) -> "Browser":
        """The same browser on a second line."""
        other = Browser(self.port, self.figures)
        other.cookies = dict(self.cookies)
        return other

    def once(self, method: str, path: str, body: bytes, headers: Mapping[str, str]) -> Answer:
        self.line = self.line or HTTPConnection("127.0.0.1", self.port, timeout=100)
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        try:
            self.line.request(
                method, path, body or None, {"Cookie": cookies, "Host": f"127.0.0.1:{self.port}", **headers}
            )
            got = self.line.getresponse()
            text = got.read().decode(errors="replace")
        except (OSError, HTTPException):
            self.line.close()
            self.line = None
            raise
        for said in got.headers.get_all("Set-Cookie") or ():
            name, _, value = said.partition(";")[0].partition("=")
            self.cookies[name] = value
        return Answer(got.status, dict(got.headers), text)

    def ask(self, method: str, path: str, body: bytes = b"", headers: Mapping[str, str] | None = None) -> Answer:
        """Until it is answered: what was cut off, and what was asked to wait, is sent again as it was."""
        until = time.monotonic() + GIVES_UP
        while time.monotonic() < until:
            began = time.monotonic()
            try:
                answer = self.once(method, path, body, headers or {})
            except (OSError, HTTPException):
                self.figures.cut += 1
                time.sleep(0.2)
                continue
            times = self.figures.reads if method == "GET" else self.figures.writes
            times.append(time.monotonic() - began)
            if answer.status == 503:
                self.figures.waited += 1
                time.sleep(0.5)
                continue
            if answer.status >= 500:
                self.figures.broken.append(f"{method} {path} answered {answer.status}")
            if answer.headers.get("Idempotency-Replayed"):
                self.figures.replayed += 1
            return answer
        raise RuntimeError(f"{method} {path} was not answered in {GIVES_UP:.0f} s")

    def get(self, path: str, **headers: str) -> Answer:
        return self.ask("GET", path, headers=headers)

    def sign_in(self, token: str) -> None:
        page = self.get(f"/enter/{token}/")
        token_field = {"csrfmiddlewaretoken": page.hidden("csrfmiddlewaretoken")}
        answer = self.ask("POST", f"/enter/{token}/", *form(token_field))
        assert answer.status == 303, answer.body[:300]

    def press(
        self, path: str, data: Mapping[str, Any], *, file: bytes = b"", twice: bool = False
    ) -> tuple[str, Answer]:
        """The key of a form drawn by the page at `path`, and what sending it was answered with."""
        page = self.get(path, **TAP)
        drawn = {name: page.hidden(name) for name in ("csrfmiddlewaretoken", "key")}
        assert drawn["key"], f"{path} answered {page.status} without a key"
        body, headers = with_file({**drawn, **data}, file) if file else form({**drawn, **data})
        return drawn["key"], self.send(path, body, {**headers, **TAP}, twice=twice)

    def send(self, path: str, body: bytes, headers: Mapping[str, str], *, twice: bool = False) -> Answer:
        """`twice` as a thumb taps that trembles: on two lines at the same moment."""
        if not twice:
            return self.ask("POST", path, body, headers)
        second: list[Answer] = []
        other = self.twin()
        thread = threading.Thread(target=lambda: second.append(other.ask("POST", path, body, headers)))
        thread.start()
        first = self.ask("POST", path, body, headers)
        thread.join()
        if other.line:
            other.line.close()
        # A phone's tap is answered with how it stands, its second sending with where that is told.
        if not second or second[0].location != first.location or (first.status < 400) != (second[0].status < 400):
            got = f"{second[0].status} {second[0].location}" if second else "nothing"
            self.figures.broken.append(f"twice {path}: {first.status} {first.location} and {got}")
        return first

    def json(self, path: str) -> Any:
        return json.loads(self.get(path, Accept="application/json").body)


def form(data: Mapping[str, Any]) -> tuple[bytes, dict[str, str]]:
    return urlencode(data).encode(), {"Content-Type": "application/x-www-form-urlencoded"}


def with_file(data: Mapping[str, Any], file: bytes, name: str = "pictures") -> tuple[bytes, dict[str, str]]:
    lines = [
        f'--{EDGE}\r\nContent-Disposition: form-data; name="{key}"\r\n\r\n{value}\r\n'.encode()
        for key, value in data.items()
    ]
    head = f'--{EDGE}\r\nContent-Disposition: form-data; name="{name}"; filename="a.jpg"'
    head += "\r\nContent-Type: image/jpeg\r\n\r\n"
    body = b"".join([*lines, head.encode(), file, f"\r\n--{EDGE}--\r\n".encode()])
    return body, {"Content-Type": f"multipart/form-data; boundary={EDGE}"}
