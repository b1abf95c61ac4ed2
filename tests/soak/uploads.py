"""Pictures on a bad line: many slow or cut at once, and large ones all at once."""

import socket
import threading
import time
from dataclasses import dataclass, field
from typing import Any

from PIL import Image

from garage.engine.picture_sizes import SIZES
from tests.pictures import encoded, noise
from tests.soak.browser import TAP, Browser, Figures, with_file
from tests.soak.home import Home
from tests.soak.server import WEB, Server

SLOW, BREATH, DRIP = 30, 0.25, 500  # pictures; seconds between two drips; bytes of one
ROUNDS, LONGEST = 3, 60.0  # so often others ask meanwhile, and for so many seconds at the most
LARGE = (8000, 5000)  # 40 million pixels


@dataclass
class Uploads:
    """`reads` and `writes` are seconds of what others asked while the slow ones were on their way."""

    reads: list[float] = field(default_factory=list)
    writes: list[float] = field(default_factory=list)
    memory: float = 0.0  # the most that one web process ever held, in MB
    wrong: list[str] = field(default_factory=list)


def uploads(server: Server, home: Home, place: dict[str, Any], seconds: float) -> Uploads:
    """By the first writer, who is signed in for it by a link of his own."""
    came, browser = Uploads(), Browser(server.port, Figures())
    browser.sign_in(place["uploader"]["token"])
    path = f"/photos/of/car/{place['uploader']['car']}/add/"
    whole = _slow(came, server, browser, path, seconds)
    if many := _too_many(home, whole * len(SIZES)):
        came.wrong.append(f"of {whole} photos that came whole there are these files: {', '.join(many)}")
    left = [file.name for file in (home.folder / "tmp").glob("*upload*")]
    if left:
        came.wrong.append(f"left of uploads that were cut: {', '.join(left)}")
    statuses = _large(browser, path)
    if statuses != [303] * len(statuses):
        came.wrong.append(f"large photos were answered {statuses}")
    came.memory = server.most_memory().get(WEB, 0.0)
    return came


def _too_many(home: Home, wanted: int) -> list[str]:
    """The files there are, if they are not so many once the server has seen what was cut."""
    until = time.monotonic() + LONGEST
    while True:
        files = [file.name for file in (home.folder / "photos").rglob("*") if file.is_file()]
        if len(files) == wanted:
            return []
        if time.monotonic() > until:
            return files
        time.sleep(BREATH)


def _slow(came: Uploads, server: Server, browser: Browser, path: str, seconds: float) -> int:
    """A third are cut half way, a third are still on their way when the others have come; how many came whole.

    None comes to its end before others were answered ROUNDS times, or had no answer for too long.
    """
    picture, over, other = encoded(noise(900, 700), "JPEG", quality=95), threading.Event(), browser.twin()
    drawn = [_drawn(browser, path, picture) for _ in range(SLOW)]
    lines = [
        threading.Thread(target=_trickle, args=[server.port, *sent, over, number % 3])
        for number, sent in enumerate(drawn)
    ]
    for line in lines:
        line.start()
    asking = threading.Thread(target=_ask, args=[came, other, seconds], daemon=True)
    asking.start()
    asking.join(LONGEST)
    if asking.is_alive():
        came.wrong.append(f"others were answered {len(came.writes)} times while {SLOW} pictures were on their way")
    over.set()
    for thread in (*lines, asking):
        thread.join()
    return SLOW // 3


def _ask(came: Uploads, browser: Browser, seconds: float) -> None:
    """A page and a form, again and again."""
    time.sleep(4 * BREATH)  # until all of them are on their way
    until = time.monotonic() + seconds
    while time.monotonic() < until or len(came.writes) < ROUNDS:
        for times, act in ((came.reads, lambda: browser.get("/shelf/", **TAP)), (came.writes, lambda: _write(browser))):
            began = time.monotonic()
            act()
            times.append(time.monotonic() - began)
        time.sleep(BREATH)


def _write(browser: Browser) -> None:
    key, answer = browser.press(
        "/places/add/", {"name": f"Hook {time.monotonic_ns()}", "kind": "shelf", "walk_order": 1}
    )
    assert answer.status == 303, (key, answer.status, answer.body[:300])


def _drawn(browser: Browser, path: str, picture: bytes) -> tuple[bytes, bytes]:
    page = browser.get(path, **TAP)
    drawn = {name: page.hidden(name) for name in ("csrfmiddlewaretoken", "key")}
    body, headers = with_file({**drawn, "caption": ""}, picture)
    cookies = "; ".join(f"{name}={value}" for name, value in browser.cookies.items())
    told = {"Host": f"127.0.0.1:{browser.port}", "Cookie": cookies, "Content-Length": str(len(body)), **headers}
    head = f"POST {path} HTTP/1.1\r\n" + "".join(f"{name}: {value}\r\n" for name, value in told.items()) + "\r\n"
    return head.encode(), body


def _trickle(port: int, head: bytes, body: bytes, over: threading.Event, sort: int) -> None:
    """Of sort 0 whole in the end, of sort 1 cut half way, of sort 2 cut in the end."""
    with socket.create_connection(("127.0.0.1", port), timeout=120) as line:
        line.sendall(head)
        sent = 0
        while not over.is_set():
            if sort == 1 and sent > 20 * DRIP:
                return
            line.sendall(body[sent : sent + DRIP])
            sent += DRIP
            over.wait(BREATH)
        if sort == 0:
            line.sendall(body[sent:])
            line.recv(1000)


def _large(browser: Browser, path: str) -> list[int]:
    """Five at the same moment: of several passes, in one pass, and with a transparent ground."""
    passes = encoded(Image.new("RGB", LARGE, "tan"), "JPEG", progressive=True)
    plain = encoded(Image.new("RGB", LARGE, "tan"), "JPEG")
    clear = encoded(Image.new("RGBA", LARGE, (9, 99, 9, 200)), "PNG", compress_level=1)
    statuses: list[int] = []

    def send(other: Browser, picture: bytes) -> None:
        statuses.append(other.press(path, {"caption": ""}, file=picture)[1].status)

    pictures = [passes, clear, passes, plain, passes]
    threads = [threading.Thread(target=send, args=[browser.twin(), picture]) for picture in pictures]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return statuses
