"""Phones of a day without signal: how `static/js/unsent.js` keeps and sends; an air that cuts, doubles and delays."""

import uuid
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from http.cookies import SimpleCookie
from random import Random
from typing import Any

from django.test import Client

from garage.member_mark import mark_of
from garage.models import Membership

ACCEPT = {"Accept": "application/json"}


class Cut(Exception):
    """No answer, or none that the garage gave."""


@dataclass(frozen=True)
class Tap:
    """What somebody tapped, under its key; kept by a phone until it is answered, `told` where the answer is words."""

    key: uuid.UUID
    who: Membership
    item: str
    to: str
    seen: int
    at: datetime
    value: str = ""
    note: str = ""
    told: str = ""
    clash: bool = False
    version: int = 0
    acts: tuple[str, ...] = ()


@dataclass(frozen=True)
class Answer:
    status: int
    json: dict[str, Any] | None
    redirected: bool


def ask(cookies: SimpleCookie, path: str, data: dict[str, Any] | None = None, key: uuid.UUID | None = None) -> Answer:
    """As `fetch` asks: cookies of that moment, redirects followed."""
    client = Client(enforce_csrf_checks=True)
    client.cookies = cookies
    headers = ACCEPT | ({"Idempotency-Key": str(key)} if key else {})
    got = client.get(path, headers=headers) if data is None else client.post(path, data, headers=headers)
    redirected = False
    while got.status_code in (302, 303):
        redirected, got = True, client.get(got["Location"], headers=headers)
    assert got["Garage-Says"]
    said = got.json() if "json" in got["Content-Type"] else None
    return Answer(got.status_code, said, redirected)


@dataclass
class Air:
    """Between phones and garage. What it holds back arrives later, when nobody waits for its answer any more."""

    random: Random
    held: list[Callable[[], Answer]] = field(default_factory=list)
    calm: bool = False

    def key(self) -> uuid.UUID:
        """Drawn by the same chance, so that a seed is the same day again."""
        return uuid.UUID(int=self.random.getrandbits(128), version=4)

    def carry(self, send: Callable[[], Answer], held: Callable[[], Answer]) -> Answer:
        chance = 1.0 if self.calm else self.random.random()
        if chance < 0.1:
            raise Cut("it never arrived")
        if chance < 0.2:
            send()
            raise Cut("its answer was lost")
        if chance < 0.3:
            self.held.append(held)
            raise Cut("it is underway")
        if chance < 0.35:
            raise Cut("a gateway answered")
        if chance < 0.42:
            send()
        return send()

    def bring_late(self) -> None:
        if self.held:
            self.held.pop(self.random.randrange(len(self.held)))()


class Phone:
    """One browser: its cookies, what its page shows (each line's version, state, acts) and what it keeps unsent.

    `page_of` is whom the page was drawn for; somebody else may have signed in beside it since.
    """

    def __init__(self, event: int, people: list[Membership], air: Air, slow: timedelta) -> None:
        self.day, self.air, self.slow = f"/paddock/{event}/", air, slow
        self.people = {mark_of(one): one for one in people}
        self.cookies, self.signal = SimpleCookie(), True
        self.page_of: Membership | None = None
        self.lines: dict[str, dict[str, Any]] = {}
        self.kept: list[Tap] = []
        self.taken: list[tuple[Tap, dict[str, Any]]] = []
        self.beside: Callable[[Phone], None] = lambda _: None

    def sign_in(self, who: Membership) -> None:
        """In a new tab: the page that lies open does not know."""
        client = Client()
        client.force_login(who.person)
        self.cookies = client.cookies

    def open(self) -> None:
        """The day's page anew: as it stands, or as it was kept where there is no signal."""
        try:
            now = self._reach(f"{self.day}now/")
        except Cut:
            return
        if now.json is not None and now.status == 200:
            self.page_of = self.people[now.json["member"]]
            self.lines = {line["item"]: line for line in now.json["items"]}

    def tap(self, item: str, to: str, at: datetime, value: str = "", note: str = "") -> Tap:
        assert self.page_of
        made = Tap(self.air.key(), self.page_of, item, to, self.lines[item]["version"], at - self.slow, value, note)
        self.kept.append(made)
        return made

    def waiting(self) -> list[Tap]:
        return [tap for tap in self.kept if tap.who == self.page_of and not tap.told]

    def back(self) -> list[Tap]:
        return [tap for tap in self.kept if tap.who == self.page_of and tap.told]

    def drop(self, tap: Tap) -> None:
        self.kept.remove(tap)

    def mine_is_right(self, tap: Tap) -> Tap | None:
        """Where it is offered: the same tap anew, by somebody who has seen what stands."""
        self.drop(tap)
        if not tap.clash or tap.to not in tap.acts:
            return None
        again = replace(tap, key=self.air.key(), seen=tap.version, told="", clash=False)
        self.kept.append(again)
        return again

    def send(self) -> None:
        """`send` of `unsent.js`."""
        try:
            now = self._reach(f"{self.day}now/")
            if now.status != 200 or now.redirected or now.json is None:
                return
            if self.page_of is None or now.json["member"] != mark_of(self.page_of):
                self.open()
                return
            self.lines |= {line["item"]: line for line in now.json["items"]}
            sent: set[uuid.UUID] = set()
            while row := next((tap for tap in self.waiting() if tap.key not in sent), None):
                sent.add(row.key)
                self.beside(self)
                if not self._post(row, now.json["token"]):
                    break
        except Cut:
            pass

    def _post(self, row: Tap, token: str) -> bool:
        """`post` of `unsent.js`: whether the next may be sent."""
        body = {"item": row.item, "to": row.to, "value": row.value, "note": row.note, "seen": row.seen}
        body |= {"at": row.at.isoformat(), "member": mark_of(row.who), "csrfmiddlewaretoken": token}
        answer = self._reach(f"{self.day}write/", body, row.key)
        if answer.status in (403, 409) or (answer.json is None and answer.redirected):
            return False
        place = self.kept.index(row)
        if answer.json is None:
            self.kept[place] = replace(row, told=f"Refused ({answer.status}).")
            return True
        said = dict(answer.json)
        if said.get("words"):
            self.lines[row.item] = self.lines[row.item] | said
        if "told" not in said and said["state"] != row.to:
            said |= {"told": "It stands otherwise.", "clash": True}
        if said.get("told"):
            more = {"version": said.get("version", 0), "acts": tuple(said.get("acts", ()))}
            self.kept[place] = replace(row, told=said["told"], clash=bool(said.get("clash")), **more)
            return True
        for later, tap in enumerate(self.kept):
            if later > place and tap.item == row.item and tap.seen == row.seen and tap.who == row.who:
                self.kept[later] = replace(tap, seen=said["version"])
        self.drop(row)
        self.taken.append((row, said))
        return True

    def _reach(self, path: str, data: dict[str, Any] | None = None, key: uuid.UUID | None = None) -> Answer:
        if not self.signal:
            raise Cut("no signal")
        then = deepcopy(self.cookies)
        return self.air.carry(lambda: ask(self.cookies, path, data, key), lambda: ask(then, path, data, key))
