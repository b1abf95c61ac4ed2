"""What eight people do at once, through forms and a phone's queue; of each act a line of what was answered."""

import random
import threading
import uuid
from collections import Counter
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from tests.pictures import corners, encoded
from tests.soak.browser import TAP, Answer, Browser, form
from tests.typed import FRONT_TOE

QUEUE = 4
TWICE, AGAIN, FOLLOWS = 0.1, 0.1, 0.3


class Writer:
    """`told` are acts that were answered as done, `refused` those that were answered with a reason why not."""

    def __init__(self, number: int, place: dict[str, Any], browser: Browser, seed: int) -> None:
        self.number, self.place, self.browser = number, place, browser
        self.mine: dict[str, Any] = place["writers"][number]
        self.random = random.Random(seed * 1000 + number)
        self.told: list[dict[str, Any]] = []
        self.refused: Counter[str] = Counter()
        self.astray: list[str] = []
        self.count = 0
        self.at_work = False  # whether the job is in hand
        self.acts: dict[Callable[[str], None], int] = {
            self.pull: 6, self.put: 5, self.receive: 2, self.step: 5, self.comment: 3,
            self.read: 3, self.queue: 4, self.job: 1, self.photo: 1,
        }  # fmt: skip

    def work(self, over: threading.Event) -> None:
        try:
            while not over.is_set():
                self.count += 1
                act = self.random.choices(list(self.acts), list(self.acts.values()))[0]
                act(f"soak {self.number}-{self.count}")
        except Exception as error:
            self.astray.append(f"writer {self.number}: {type(error).__name__}: {error}")

    def keep(self, kind: str, mark: str, key: str, **more: Any) -> None:
        self.told.append({"kind": kind, "mark": mark, "key": key, "person": self.mine["person"], **more})

    def press(self, kind: str, mark: str, path: str, data: dict[str, Any], *, file: bytes = b"", **more: Any) -> bool:
        """One form; whether it was taken. Now and then tapped twice, sent once more later, or its page looked at."""
        key, answer = self.browser.press(path, data, file=file, twice=self.random.random() < TWICE)
        if answer.status != 303:
            self.refused[f"{kind} {answer.status}"] += 1
            return False
        self.keep(kind, mark, key, **more)
        if not file and self.random.random() < AGAIN:
            self.again(path, {**data, "key": key}, answer)
        elif self.random.random() < FOLLOWS:
            self.browser.get(answer.location, **TAP)
        return True

    def again(self, path: str, data: dict[str, Any], first: Answer) -> None:
        """As after *Back*: the same button, with another token."""
        token = self.browser.get(path, **TAP).hidden("csrfmiddlewaretoken")
        answer = self.browser.send(path, *form({**data, "csrfmiddlewaretoken": token}))
        if (answer.status, answer.location) != (303, first.location):
            self.astray.append(f"again {path}: {answer.status} {answer.location}, at first {first.location}")

    # The shelf.

    def move(self, verb: str, mark: str, **where: int) -> None:
        part, many = self.random.choice(self.place["parts"]), self.random.randint(1, 3)
        data = {"quantity": many, "why": mark, **where}
        self.press("move", mark, f"/parts/{part}/move/{verb}/", data, part=part, verb=verb, quantity=many)

    def pull(self, mark: str) -> None:
        self.move("pull", mark, source=self.place["shelf"])

    def put(self, mark: str) -> None:
        self.move("put", mark, source=self.place["bench"], target=self.place["shelf"])

    def receive(self, mark: str) -> None:
        self.move("receive", mark, target=self.place["shelf"])

    # A job of his own, and what is said of it.

    def step(self, mark: str) -> None:
        verb = "stop" if self.at_work else "start"
        if self.press(verb, str(self.mine["job"]), f"/jobs/{self.mine['job']}/{verb}/", {}):
            self.at_work = not self.at_work

    def comment(self, mark: str) -> None:
        self.press("comment", mark, f"/jobs/{self.mine['job']}/comments/add/", {"text": mark})

    def job(self, mark: str) -> None:
        work = {
            "title": mark,
            "likely": "40 min",
            "hands": 1,
            "weight": 1,
            "vehicle": self.mine["car"],
            "systems": "body",
        }
        self.press("job", mark, f"/cars/{self.mine['car']}/jobs/add/", work)

    # The car.

    def read(self, mark: str) -> None:
        path = f"/cars/{self.mine['car']}/readings/toe_front/add/"
        self.press("reading", mark, path, {**FRONT_TOE, "note": mark, "who": self.mine["member"]})

    def photo(self, mark: str) -> None:
        picture = encoded(corners(400, 300), "JPEG")
        self.press("photo", mark, f"/photos/of/car/{self.mine['car']}/add/", {"caption": mark}, file=picture)

    # The day itself: taps that waited on a phone without signal, then sent in order, each until it is answered.

    def queue(self, mark: str) -> None:
        event = self.place["event"]
        now = self.browser.json(f"/paddock/{event}/now/")
        standing = {item["item"]: item for item in now["items"]}
        taps = []
        for number in self.random.sample(self.mine["items"], QUEUE):
            item = standing.get(f"check-{number}")
            if item:
                taps.append(
                    {
                        "item": item["item"],
                        "to": "open" if item["state"] == "ticked" else "ticked",
                        "seen": item["version"],
                    }
                )
        taps.append({"item": f"note-{self.place['entry']}", "to": "said", "seen": 0, "value": f"{mark} chafed"})
        for tap in taps:
            self.tap(event, tap, now["token"])

    def tap(self, event: int, tap: dict[str, Any], token: str) -> None:
        key = str(uuid.uuid4())
        body, headers = form(
            {"note": "", "value": "", **tap, "at": datetime.now(UTC).isoformat(), "csrfmiddlewaretoken": token}
        )
        headers |= {"Accept": "application/json", "Idempotency-Key": key}
        path = f"/paddock/{event}/write/"
        answer = self.browser.send(path, body, headers, twice=self.random.random() < TWICE)
        if answer.status == 303:  # answered already, and the answer was lost: the browser goes where it leads
            taken = True
        else:
            said = answer.headers.get("Content-Type", "").startswith("application/json")
            taken = said and answer.status == 200 and '"clash": false' in answer.body
        if not taken:
            self.refused[f"tap {answer.status}"] += 1
        elif tap["to"] == "said":
            self.keep("note", tap["value"], key)
        else:
            self.keep("tick", key, key)
