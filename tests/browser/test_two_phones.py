"""Two phones in a real browser, three people, two hundred acts in any order: cuts, closings, clashes, other hands."""

import os
import random
import threading
from collections import Counter
from dataclasses import dataclass, field
from itertools import cycle

import pytest

from garage.member_mark import mark_of
from tests.browser.air import ARRIVES, ELSEWHERE, GATEWAY, LATE, LOST, NEVER, TWICE, Door
from tests.browser.day import made_entry, ways_in
from tests.browser.real_phone import OFFERED, SEND, RealPhone
from tests.property.test_day_without_signal import added, logged

ACTS = int(os.environ.get("ACTS", "200"))
SEEDS = range(int(os.environ.get("HUNT", "1")))
FATES = {ARRIVES: 64, NEVER: 8, LOST: 8, LATE: 8, TWICE: 6, GATEWAY: 4, ELSEWHERE: 2}
DEEDS = {"tap": 60, "cut": 10, "closed": 6, "again": 5, "hands": 5, "answer": 12, "send": 6, "late": 5}


@dataclass(frozen=True)
class Tap:
    """What a phone kept, in whose name (his mark)."""

    member: str
    to: str
    value: str
    note: str


@dataclass
class Day:
    """Of both phones, by key: what a phone said is saved (`kept`), what came back and was `shown` to whoever wrote it,
    and what is `left` of it on the phones.
    """

    chance: random.Random
    crew: list
    phones: list = field(default_factory=list)
    kept: dict[str, Tap] = field(default_factory=dict)
    shown: set[str] = field(default_factory=set)
    left: dict[int, set[str]] = field(default_factory=dict)
    done: Counter = field(default_factory=Counter)
    calm: bool = False
    one: threading.Lock = field(default_factory=threading.Lock)

    def fate(self, _):
        with self.one:
            return ARRIVES if self.calm else self.chance.choices([*FATES], [*FATES.values()])[0]

    def act(self, number):
        deed = self.chance.choices([*DEEDS], [*DEEDS.values()])[0]
        phone = self.chance.choice(self.phones)
        getattr(self, deed)(phone, number)
        self.done[deed] += 1
        self.look(phone)

    def look(self, phone):
        rows = phone.look()
        for key, row in rows.items():
            self.keeps(row)
            if row.get("told") and row["shown"]:
                self.shown.add(key)
        self.left[id(phone)] = set(rows)

    def keeps(self, row):
        if row:
            self.kept[row["key"]] = Tap(row["member"], row["to"], row.get("value") or "", row.get("note") or "")

    def _drawn(self, phone, number):
        item, to = self.chance.choice(phone.until(OFFERED))
        value = {"said": f"seen {number}", "marked": self.chance.choice(["98", "110"])}.get(to, "1.9 1.9 1.8 1.8")
        note = f"note {number}" if to in ("failed", "left_out", "taken") else ""
        return item, to, value if to in ("said", "marked", "taken") else "", note

    def tap(self, phone, number):
        self.keeps(phone.tap(*self._drawn(phone, number)))

    def closed(self, phone, number):
        if not phone.off:
            self.keeps(phone.closed_underway(*self._drawn(phone, number)))
            phone.open()

    def cut(self, phone, _):
        phone.cut()

    def again(self, phone, _):
        phone.again()

    def send(self, phone, _):
        phone.ask(SEND)

    def late(self, phone, _):
        phone.air.bring_late()

    def hands(self, phone, _):
        """Another takes the phone, some of them after it was signed out; the page may lie open meanwhile."""
        if phone.off:
            return
        if self.chance.random() < 0.5:
            phone.sign_out()
        phone.sign_in(self.chance.choice(self.crew).name)
        if self.chance.random() < 0.5:
            phone.open()

    def answer(self, phone, _):
        """To one that came back: mine is right, where that is offered, or seen."""
        back = [key for key, row in phone.sees.items() if row.get("told") and row["shown"]]
        if back:
            row = phone.sees[key := self.chance.choice(sorted(back))]
            mine = row["clash"] and row["to"] in (row.get("acts") or [row["to"]]) and self.chance.random() < 0.5
            said = "Mine is right" if mine else "Leave it as it is" if row["clash"] else "Seen"
            self.keeps(phone.answer(key, said))

    def ends(self):
        """Everybody signs in once more where there is signal: all of his goes out, and what came back he sees."""
        self.calm = True
        for phone in self.phones:
            if phone.off:
                phone.cut()
            for who in self.crew:
                phone.sign_in(who.name)
                assert self.sends_all(phone, mark_of(who)), f"never sent: {phone.sees}"
            phone.air.bring_late()

    def sends_all(self, phone, member):
        """A slow machine has a kept page of another shown first, or gives up an answer: then once more."""
        for _ in range(20):
            phone.open()
            phone.ask(SEND)
            self.look(phone)
            if phone.member == member and all(row.get("told") for row in phone.sees.values() if row["shown"]):
                return True
        return False


@pytest.fixture
def wrong():
    """What went wrong in a script of a page."""
    wrong = []
    yield wrong
    assert wrong == []


@pytest.mark.once
@pytest.mark.parametrize("seed", SEEDS)
def test_every_acknowledged_write_is_there_once_and_every_clash_was_shown(crew, live_server, chromium, wrong, seed):
    day, door, ways = Day(random.Random(seed), crew), Door(live_server.url), ways_in(crew)
    entry = made_entry(crew[0], "Moth")
    day.phones = [RealPhone(chromium, door, entry.event_id, ways, day.fate) for _ in range(2)]
    for phone, who in zip(day.phones, cycle(crew), strict=False):
        phone.context.on("weberror", lambda error: wrong.append(str(error.error)))
        phone.sign_in(who.name)
        day.calm = True
        phone.open()
        phone.ready()
        day.calm = False
    for number in range(ACTS):
        day.act(number)
    day.ends()
    for phone in day.phones:
        phone.close()
    with door.one:
        holds(day, door)


def holds(day, door):
    log, whose, left = logged(), {mark_of(who): who for who in day.crew}, set().union(*day.left.values())
    for key, tap in day.kept.items():
        on_record = added(tap) if tap.to in ("said", "taken") else [log[key]] if key in log else []
        assert len(on_record) <= 1, f"doubled: {tap}"
        assert set(on_record) <= {whose[tap.member]}, f"in another's name: {tap}"
        if key not in day.shown:
            assert key not in left, f"never sent: {tap}"
            stood = any(said["state"] == tap.to and not said["told"] for said in door.answers.get(key, ()))
            assert on_record or (stood and not (tap.value or tap.note)), f"lost: {tap} {door.answers.get(key)}"
    assert set(log) <= set(day.kept)
    enough = len(day.kept) > ACTS / 3 and len(log) > ACTS / 10 and day.shown and set(day.done) == set(DEEDS)
    assert enough, (len(day.kept), len(log), len(day.shown), day.done)
