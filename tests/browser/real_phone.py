"""A phone in a real browser, with its page of the day and its own air; what it keeps is read from where it keeps it."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from playwright.sync_api import Browser, Error

from tests.browser.air import STALLS, Air, Door
from tests.browser.conftest import SIZES

PATIENCE = 60_000  # of the browser, in ms; of a machine with other work
# Told to the test: what a page kept last, that it began to send, and when that is over.
LISTENS = """
let queue;
Object.defineProperty(window, "unsent", {
  get: () => queue,
  set: (made) => {
    const { add, send } = made;
    made.add = async (row) => { const n = await add(row); window.last = row; return n; };
    made.send = (...asked) => { window.sending = send(...asked); window.begun?.(); return window.sending; };
    queue = made;
  },
});
"""
# What a phone has come to: its page of the day, the door, or what a gateway says.
WHERE = """() => document.querySelector("form[data-item]") ? window.sending && "day"
  : document.readyState === "complete" && (location.pathname === "/sign-in/" ? "door" : !window.unsent && "nothing")
"""
OFFERED = """() => {
  const offered = [...document.querySelectorAll("form[data-item]")].flatMap((form) =>
    [...form.querySelectorAll("button[name=to]")].filter((one) => !one.hidden)
      .map((one) => [form.dataset.item, one.value]));
  return window.sending && offered.length ? offered : false;
}"""
TAP = """async ([item, to, value, note]) => {
  const forms = [...document.querySelectorAll(`form[data-item="${item}"]`)];
  const button = forms.flatMap((form) => [...form.querySelectorAll("button[name=to]")])
    .find((one) => one.value === to && !one.hidden);
  if (!button || !window.sending) return null;
  const { elements } = button.form;
  if (elements.value) elements.value.value = value;
  if (elements.note) elements.note.value = note;
  const begun = new Promise((done, fail) => {
    window.begun = done;
    setTimeout(() => fail(new Error("nothing was sent")), 60000);
  });
  button.form.requestSubmit(button);
  await begun;
  return last;
}"""
REST = "async () => { await window.sending; }"
OVER = """() => Promise.race([sending.then(() => true), new Promise((done) => setTimeout(done, 20, false))])"""
SEND = "async () => { await unsent.send(document.querySelector('[data-paddock]').dataset.state); }"
# What is kept, once all that came back to whoever the page is of is before him: in the list, and at its row.
KEPT = """async () => {
  if (!window.unsent) return false;
  const rows = await unsent.all();
  const back = rows.filter((row) => row.member === unsent.member && row.told);
  return back.every((row) => document.querySelector(`#paddock-told li[data-key="${row.key}"]`)?.checkVisibility()
    && document.querySelector(`#${row.item} [data-told]`)) && { member: unsent.member, rows };
}"""
ACT = """async ([key, words]) => {
  const acts = [...document.querySelectorAll(`#paddock-told li[data-key="${key}"] button`)];
  const act = acts.find((one) => one.textContent.startsWith(words));
  const sends = act && words === "Mine is right";
  const begun = sends && new Promise((done, fail) => {
    window.begun = done;
    setTimeout(() => fail(new Error("nothing was sent")), 60000);
  });
  act?.click();
  if (!sends) return null;
  await begun;
  return last;
}"""


@dataclass
class RealPhone:
    """`ways` are the links by which each person (by name) signs in, one after another."""

    browser: Browser
    door: Door
    event: int
    ways: dict[str, Iterator[str]]
    fate: Callable[[str], str]
    who: str = ""
    member: str = ""
    off: bool = False
    stalls: bool = False
    sees: dict[str, dict[str, Any]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.air = Air(self.door, self._fate)
        size = SIZES["phone"]
        self.context = self.browser.new_context(viewport=size, has_touch=True, service_workers="allow")
        self.context.set_default_timeout(PATIENCE)
        self.context.add_init_script(LISTENS)
        self.page = self.context.new_page()

    def _fate(self, path: str) -> str:
        if self.stalls and path.endswith("/write/"):
            self.stalls = False
            return STALLS
        return self.fate(path)

    def ask(self, script: str, told: Any = None) -> Any:
        """A page that meets another's session loads itself anew: then of the new one."""
        while True:
            try:
                return self.page.evaluate(script, told)
            except Error as wrong:
                _unless_loaded_anew(wrong)
                self.until(WHERE)

    def rest(self) -> None:
        """All that it began to send is answered, or given up."""
        self.ask(REST)

    def open(self) -> None:
        """With signal where nothing is kept; who is asked to sign in does."""
        while (there := self._went()) != "day":
            if there == "door":
                self.sign_in(self.who)
            elif self.off:
                self.cut()

    def _went(self) -> str:
        try:
            self.page.goto(f"{self.air.url}/paddock/{self.event}/")
        except Error:
            return "nothing"
        return str(self.until(WHERE))

    def again(self) -> None:
        """Closed, and opened anew: without signal from what the phone keeps."""
        self.page.close()
        self.page = self.context.new_page()
        self.open()

    def ready(self) -> None:
        self.page.get_by_text("This page opens without signal too.").wait_for()

    def cut(self) -> None:
        self.off = not self.off
        self.context.set_offline(self.off)

    def tap(self, item: str, to: str, value: str = "", note: str = "") -> dict[str, Any] | None:
        """What the phone says is saved, and is now being sent."""
        return self.ask(TAP, [item, to, value, note])

    def closed_underway(self, item: str, to: str, value: str, note: str) -> dict[str, Any] | None:
        """Tapped, and closed while it is being sent: it arrives, and the phone does not hear that."""
        self.stalls = True
        self.air.stalled.clear()
        self.air.go_on.clear()
        kept = self.tap(item, to, value, note)
        while self.stalls and not self.ask(OVER):
            pass  # on its way to the garage
        self.stalls = False
        self.page.close()
        self.air.go_on.set()
        self.page = self.context.new_page()
        return kept

    def sign_in(self, name: str) -> None:
        """In a tab beside: the page that lies open does not know."""
        self.who = name
        beside = self.context.new_page()
        beside.goto(self.air.url + next(self.ways[name]))
        beside.get_by_role("button", name="Sign in").click()
        beside.wait_for_url(re.compile(r"^(?!.*/enter/)"))
        beside.close()

    def sign_out(self) -> None:
        beside = self.context.new_page()
        beside.goto(f"{self.air.url}/people/")
        if "/sign-in/" not in beside.url:  # where a late answer to somebody before has not done so already
            beside.get_by_text("More", exact=True).click()
            beside.get_by_role("button", name="Sign out").click()
            beside.wait_for_url("**/sign-in/**")
        beside.close()

    def look(self) -> dict[str, dict[str, Any]]:
        """What it keeps, by key; and that whoever the page is of has before him each that came back to him."""
        self.rest()
        if self.until(WHERE) != "day":
            self.open()
        kept = self.until(KEPT)
        self.member = kept["member"]
        self.sees = {row["key"]: row | {"shown": row["member"] == kept["member"]} for row in kept["rows"]}
        return self.sees

    def until(self, script: str) -> Any:
        """What it says once that is something."""
        while True:
            try:
                return self.page.wait_for_function(script).json_value()
            except Error as wrong:
                _unless_loaded_anew(wrong)

    def answer(self, key: str, words: str) -> dict[str, Any] | None:
        """What is kept anew, where it was said that mine is right."""
        kept = self.ask(ACT, [key, words])
        self.rest()
        return kept

    def close(self) -> None:
        self.context.close()
        self.air.shutdown()
        self.air.server_close()


def _unless_loaded_anew(wrong: Error) -> None:
    if not any(words in str(wrong) for words in ("context was destroyed", "navigation", "undefined", "disposed")):
        raise wrong
