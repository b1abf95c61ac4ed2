// Says at once what a tap does, sends it once, tells failures, and keeps the place of the keyboard.
(() => {
  "use strict";
  const tell = (id, words) => {
    const line = document.createElement("p");
    line.textContent = words;
    document.getElementById(id)?.replaceChildren(...(words ? [line] : []));
  };
  const isWrite = (form) => form instanceof HTMLFormElement && form.method === "post";
  const begin = (form) => {
    form.setAttribute("aria-busy", "true");
    tell("alert", "");
    tell("status", form.dataset.busy || "Saving…");
  };
  const end = (form) => {
    form.removeAttribute("aria-busy");
    delete form.dataset.sent;
  };
  // The button was switched off while it waited, which took the focus away from it.
  const fail = (form, words) => {
    tell("status", "");
    tell("alert", `${words} What you typed is still here.`);
    setTimeout(() => form.querySelector("button:not([disabled])")?.focus({ preventScroll: true }));
  };

  // Without htmx on the form the browser sends it: a second tap is swallowed.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!isWrite(form) || form.hasAttribute("hx-post")) return;
    if (form.dataset.sent) return event.preventDefault();
    form.dataset.sent = "1";
    begin(form);
  });
  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    document.querySelectorAll("form[aria-busy]").forEach(end);
    tell("status", "");
  });

  // Signed out: nothing that this phone keeps for the event's day may be read any more.
  if ("signedOut" in document.body.dataset) {
    self.caches?.keys().then((names) => names.forEach((name) => caches.delete(name)));
  }

  // A copy of what a button names; where the browser gives no clipboard, it is selected instead.
  const ready = (part) => part.querySelectorAll("[data-copies]").forEach((button) => { button.hidden = false; });
  ready(document);
  document.addEventListener("click", async ({ target }) => {
    const button = target.closest("[data-copies]");
    if (!button) return;
    const text = document.getElementById(button.dataset.copies);
    getSelection().selectAllChildren(text);
    const copied = navigator.clipboard
      ? await navigator.clipboard.writeText(text.innerText.trim()).then(() => true, () => false)
      : document.execCommand("copy");
    tell("status", copied ? "Copied." : "It is selected: copy it by hand.");
  });

  // A slash leads to the box that finds things, where no letters are typed.
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest?.("input, textarea, select, [contenteditable]")) return;
    const box = document.getElementById("find-words");
    const link = document.getElementById("find-link");
    if (!box && !link) return;
    event.preventDefault();
    if (box) box.focus();
    else link.click();
  });

  // Where a new garage stands: as the browser says, where that is one of the choices.
  document.querySelectorAll("select[data-here]").forEach((zone) => {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    const called = (place) => [place.value, ...(place.dataset.was || "").split(" ")];
    const place = [...zone.options].find((one) => called(one).includes(here));
    if (place) zone.value = place.value;
  });

  let place = "";
  let slot = "";
  const on = (name, act) => document.addEventListener(`htmx:${name}`, act);
  on("beforeRequest", ({ detail }) => {
    // What a new page asks for as it comes, such as odds, does not make it the page that one was on.
    if (detail.target.id === "main") {
      place = location.pathname;
      slot = detail.elt.closest("[id]:not(#main)")?.id || "";
    }
    if (isWrite(detail.elt)) begin(detail.elt);
  });
  on("afterRequest", ({ detail }) => {
    if (isWrite(detail.elt)) end(detail.elt);
  });
  on("sendError", ({ detail }) => fail(detail.elt, "The garage could not be reached: try again."));
  on("timeout", ({ detail }) => fail(detail.elt, "The garage took too long to answer: try again."));
  on("responseError", ({ detail }) => {
    const page = new DOMParser().parseFromString(detail.xhr.responseText, "text/html");
    const refusal = page.querySelector("[data-refusal]")?.textContent.trim();
    fail(detail.elt, refusal || `That did not work (error ${detail.xhr.status}): try again.`);
  });

  // What somebody unfolded stays so when the answer around it is drawn again.
  let unfolded = [];
  on("beforeSwap", ({ detail }) => {
    unfolded = [...detail.target.querySelectorAll("details[open][id]")].map((fold) => fold.id);
  });
  on("afterSwap", () => unfolded.forEach((id) => document.getElementById(id)?.setAttribute("open", "")));

  // After a swap: the first field in error, else the same tag's next button, else the heading.
  on("afterSettle", ({ detail }) => {
    ready(detail.target);
    if (detail.target.id !== "main") return;
    if (document.querySelector("#status p")?.textContent.endsWith("…")) tell("status", "");
    const moved = location.pathname !== place;
    const main = document.getElementById("main");
    const tag = !moved && slot && document.getElementById(slot);
    const next = main.querySelector("[aria-invalid=true]")
      || (tag && (tag.querySelector("button") || tag.querySelector("a")))
      || main.querySelector("h1");
    if (!next) return;
    if (next.tagName === "H1") next.tabIndex = -1;
    if (moved) scrollTo(0, 0);
    next.focus({ preventScroll: next.tagName === "H1" });
  });
})();
