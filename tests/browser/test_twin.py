"""The phone's own script and the model of it in the property tests, led through the same hour: they keep the same."""

import re
import uuid
from datetime import timedelta
from random import Random

import pytest

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.packing.models import PackItem
from builds.scrutineering.actions import checks
from builds.scrutineering.models.check import CheckItem
from garage import clock
from tests.browser.air import ARRIVES, GATEWAY, LATE, LOST, NEVER, TWICE, Door
from tests.browser.day import made_entry, ways_in
from tests.browser.real_phone import SEND, RealPhone
from tests.property.phones import Air, Cut, Phone

KEPT = """async () => [(await unsent.all()).sort((a, b) => a.n - b.n),
  Object.fromEntries([...document.querySelectorAll("li[data-version]")].map((li) => [li.id, +li.dataset.version]))]"""


class Told:
    """What becomes of the next requests, as it was said beforehand; then all arrive."""

    def __init__(self):
        self.fates = []

    def fate(self, path):
        told = self.fates and path.endswith(("/now/", "/write/"))
        return self.fates.pop(0) if told else ARRIVES


class ToldAir(Told, Air):
    def __init__(self):
        Air.__init__(self, Random(1))
        Told.__init__(self)

    def carry(self, send, held):
        fate = self.fate("/now/")
        if fate == LATE:
            self.held.append(held)
        if fate in (LOST, TWICE):
            send()
        if fate not in (ARRIVES, TWICE):
            raise Cut(fate)
        return send()


class Twins:
    """One phone in a browser and one in the model, each with an event, a car and its lists of its own."""

    def __init__(self, browser, url, crew):
        self.crew, self.door, self.told, self.air = crew, Door(url), Told(), ToldAir()
        entries = [made_entry(crew[0], name) for name in ("Moth", "Wren")]
        self.items = [self._items(entry) for entry in entries]
        self.real = RealPhone(browser, self.door, entries[0].event_id, ways_in(crew), self.told.fate)
        self.model = Phone(entries[1].event_id, crew, self.air, timedelta())
        self.sign_in(crew[1])
        self.real.open()
        self.real.rest()

    @staticmethod
    def _items(entry):
        lines = [f"check-{pk}" for pk in CheckItem.objects.filter(checklist__entry=entry).values_list("pk", flat=True)]
        packs = PackItem.objects.filter(packlist__event=entry.event).values_list("pk", flat=True)
        joint = Joint.objects.get(vehicle=entry.vehicle)
        return [*lines, *(f"pack-{pk}" for pk in packs), f"joint-{joint.pk}", f"press-{entry.pk}", f"note-{entry.pk}"]

    def fates(self, *fates):
        self.told.fates, self.air.fates = [*fates], [*fates]

    def sign_in(self, who):
        self.real.sign_in(who.name)
        with self.door.one:
            self.model.sign_in(who)
            self.model.open()

    def tap(self, place, to, *fates, value="", note=""):
        self.fates(*fates)
        self.real.tap(self.items[0][place], to, value, note)
        self.real.rest()
        with self.door.one:
            self.model.tap(self.items[1][place], to, clock.now(), value, note)
            self.model.send()
        assert (self.told.fates, self.air.fates) == ([], [])
        self.same()

    def send(self):
        self.real.ask(SEND)
        with self.door.one:
            self.model.send()
        self.same()

    def cut(self):
        self.real.cut()
        self.model.signal = not self.model.signal

    def bring_late(self):
        self.real.air.bring_late()
        with self.door.one:
            self.air.bring_late()

    def answer(self, place, *, mine=False):
        """To the line of that place that came back."""
        row = next(row for row in self.back() if row["item"] == self.items[0][place])
        self.real.answer(row["key"], "Mine is right" if mine else "Leave it as it is" if row["clash"] else "Seen")
        with self.door.one:
            tap = next(tap for tap in self.model.back() if tap.item == self.items[1][place])
            self.model.mine_is_right(tap) if mine else self.model.drop(tap)
            self.model.send()
        self.same()

    def back(self):
        return [row for row in self.real.ask(KEPT)[0] if row.get("told")]

    def same(self):
        """Of both: what is kept in which order, what was said to it, and which version each line is shown in."""
        (ones, others), (rows, shown) = self.items, self.real.ask(KEPT)
        real = [
            (ones.index(row["item"]), row["to"], row["value"], row["note"], row["seen"], plain(row.get("told")))
            for row in rows
        ]
        model = [
            (others.index(tap.item), tap.to, tap.value, tap.note, tap.seen, plain(tap.told)) for tap in self.model.kept
        ]
        assert real == model
        assert [bool(row.get("clash")) for row in rows] == [tap.clash for tap in self.model.kept]
        versions = [self.model.lines[item]["version"] for item in others if item in self.model.lines]
        assert [shown[item] for item in ones if item in shown] == versions


def plain(told):
    """Without the minute in which it was."""
    return re.sub(r"(\w{3} \d+ \w{3} )?\d\d:\d\d", "then", told or "")


@pytest.mark.once
def test_the_script_of_the_phone_and_its_model_keep_and_send_alike(chromium, crew, live_server):
    both = Twins(chromium, live_server.url, crew)
    both.tap(0, "ticked", ARRIVES, LOST)  # taken, and not heard of
    both.send()
    both.tap(3, "packed", ARRIVES, TWICE)
    both.tap(2, "failed", NEVER, note="hose chafed")
    both.tap(2, "open")  # of the same line, before the first was sent
    both.tap(8, "said", ARRIVES, LATE, value="oil under it")
    both.send()
    both.bring_late()
    both.tap(4, "packed", ARRIVES, GATEWAY)
    both.tap(7, "taken", value="1.9 1.9")  # refused: it is not four
    while came := both.back():
        both.answer(both.items[0].index(came[0]["item"]))

    both.cut()
    both.tap(1, "ticked")
    both.tap(6, "marked", value="98")
    with both.door.one:
        for items in both.items:
            check, joint = (int(items[place].split("-")[1]) for place in (1, 6))
            told = {"by": crew[0], "at": clock.now(), "key": uuid.uuid4()}
            checks.take(CheckItem.objects.get(pk=check), "fail", note="worn out", **told)
            told = {"by": crew[0], "at": clock.now(), "key": uuid.uuid4()}
            joints.mark(Joint.objects.get(pk=joint), torque_mnm=110_000, typed="110 N·m", **told)
    both.cut()
    both.send()
    both.answer(1)
    both.answer(6, mine=True)
    both.real.close()
