// The event's day without signal: what is tapped is said at its row, kept by `unsent.js`, and sent from there.
(() => {
  "use strict";
  const box = document.querySelector("[data-paddock]");
  const queue = window.unsent;
  if (!box || !queue) return;
  const { write, state, name, off: offSaid } = box.dataset;
  const { member, clock, FORMAT } = queue;
  const say = (id, words) => { const line = document.getElementById(id); if (line) line.textContent = words; };
  const row = (item) => document.getElementById(item);
  const DONE = ["ticked", "left_out", "packed", "signed", "marked"];

  const show = ({ item, words, state: standing, version, acts }) => {
    const li = row(item);
    if (!li) return;
    li.dataset.state = standing;
    if (version !== undefined) li.dataset.version = version;
    li.querySelector("[data-words]").textContent = words;
    if (acts) li.querySelectorAll("button[name=to]").forEach((act) => { act.hidden = !acts.includes(act.value); });
  };

  // Counts are of what this phone shows, sent or not.
  const recount = () => box.querySelectorAll("[data-counts]").forEach((line) => {
    const home = document.getElementById(line.dataset.of) || line.closest("details");
    const states = [...home.querySelectorAll("li[data-state]")].map((li) => li.dataset.state);
    const of = line.dataset.counts === "packed" ? states.filter((one) => one !== "left") : states;
    line.textContent = `${of.filter((one) => DONE.includes(one)).length} of ${of.length}`;
  });

  const button = (words, act, kind = "") => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = kind;
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  };

  const asking = (id, words, value) => {
    const field = Object.assign(document.createElement("div"), { className: "field" });
    const label = Object.assign(document.createElement("label"), { htmlFor: id, textContent: words });
    const input = Object.assign(document.createElement("input"), { id, value, maxLength: 200, autocomplete: "off" });
    field.append(label, input);
    return { field, input };
  };

  const told = (entry) => {
    const said = document.createElement("p");
    const what = row(entry.item)?.querySelector("[data-name]")?.textContent || entry.item;
    said.textContent = `${what}, ${entry.to} at ${clock(entry.at)}: ${entry.told}`;
    const acts = document.createElement("div");
    acts.className = "acts";
    // Only where it would not be refused: the garage said what can be done of it now.
    if (entry.clash && (entry.acts || [entry.to]).includes(entry.to)) {
      acts.append(button("Mine is right: set it", async () => {
        await queue.drop(entry.n);
        await keep({ ...entry, n: undefined, seen: entry.version });
      }, "main"));
    }
    // A question, not a wall: with what it asks for it is taken.
    const parts = [said, acts];
    if (entry.asks === "note") {
      const { field, input } = asking(`why-${entry.key}`, "Why", entry.note);
      parts.splice(1, 0, field);
      acts.append(button("Send it with that", async () => {
        const note = input.value.trim();
        if (!note) return input.focus();
        await queue.drop(entry.n);
        await keep({ ...entry, n: undefined, note });
      }, "main"));
    }
    const leave = entry.clash ? "Leave it as it is" : "Seen";
    acts.append(button(leave, async () => { await queue.drop(entry.n); queue.draw(); }));
    const li = document.createElement("li");
    li.dataset.key = entry.key;
    li.append(...parts);
    return li;
  };

  queue.hooks.standing = show;
  queue.hooks.drawn = ({ rows, counted, back }) => {
    const cameBack = back.length && `Sent, and ${back.length} came back: see below.`;
    say("paddock-count", counted.words || cameBack || "All is sent.");
    document.getElementById("paddock-send").hidden = !counted.mine.length;
    counted.mine.forEach((entry) => {
      const typed = [entry.value, entry.note].filter(Boolean).map((words) => `“${words}”`).join(", ");
      const words = `${entry.to}${typed && ` ${typed}`}, saved on this phone ${clock(entry.at)}`;
      show({ item: entry.item, words, state: entry.to });
    });
    box.querySelectorAll("[data-told]").forEach((line) => line.remove());
    back.forEach((entry) => {
      const line = document.createElement("p");
      line.dataset.told = "";
      line.className = "tick-wide told";
      line.textContent = entry.told;
      row(entry.item)?.append(line);
    });
    // One that stands there already stays, with what is typed into it.
    const list = document.getElementById("paddock-told");
    const there = new Map([...list.children].map((li) => [li.dataset.key, li]));
    list.replaceChildren(...back.map((entry) => there.get(entry.key) || told(entry)));
    document.getElementById("paddock-clashes").hidden = !back.length;
    recount();
  };

  const keep = async (entry) => {
    const { n, told: answer, clash, version, acts, asks, ...kept } = entry;
    await queue.add({
      ...kept, format: FORMAT, key: crypto.randomUUID(), at: Date.now(),
      member, name, write, state, page: location.pathname,
    });
    await queue.draw();
    queue.send(state);
  };

  // Far off its figure it wants a reason; of what is typed in another unit the garage asks when it is sent.
  const far = ({ value, dataset: { least, most } }) => {
    const typed = /^\s*(\d+(?:[.,]\d+)?)\s*$/.exec(value);
    const figure = typed && Number(typed[1].replace(",", "."));
    return figure !== null && least !== undefined && (figure < Number(least) || figure > Number(most));
  };

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("form[data-item]")) return;
    event.preventDefault();
    event.stopPropagation();
    const li = row(form.dataset.item);
    const sent = new FormData(form, event.submitter);
    const note = (sent.get("note") || "").trim();
    const to = sent.get("to");
    const lacks = form.querySelector("[data-lacks]");
    const asked = event.submitter?.dataset.asks || "";
    const missing = (asked === "note" && !note) || (asked === "value" && !(sent.get("value") || "").trim());
    const off = !missing && !note && asked === "value" && far(form.elements.value);
    if (lacks) {
      lacks.hidden = !missing && !off;
      lacks.textContent = off ? offSaid : "Nothing is written there yet.";
    }
    if (off) {
      form.elements.note.closest("details").open = true;
      return form.elements.note.focus();
    }
    if (missing) return form.querySelector(`[name=${asked}]`)?.focus();
    keep({
      item: form.dataset.item, to, note, value: sent.get("value") || "", unit: sent.get("unit") || "",
      wrench: sent.get("wrench") || "", seen: Number(li.dataset.version),
    }).then(() => form.reset(), () => {
      queue.say("This phone would not save it: write it on paper.");
      const line = Object.assign(document.createElement("p"), { className: "tick-wide told" });
      line.dataset.told = "";
      line.textContent = "Not saved: this phone is full. Write it on paper.";
      li.append(line);
    });
  }, true);

  const go = () => queue.send(state);
  document.getElementById("paddock-send")?.addEventListener("click", go);
  addEventListener("online", go);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) go(); });
  navigator.storage?.persist?.();
  if ("serviceWorker" in navigator) {
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      if (data === "kept") say("paddock-ready", "This page opens without signal too.");
    });
    navigator.serviceWorker.register(box.dataset.worker).then(() => navigator.serviceWorker.ready).then((ready) => {
      const pieces = [...document.querySelectorAll("link[rel=stylesheet], link[rel=icon], script[src]")];
      ready.active.postMessage([location.href, ...pieces.map((each) => each.href || each.src)]);
    }, () => {});
  } else {
    say("paddock-ready", "This page opens without signal only over https.");
  }
  queue.draw().then(go);
})();
