// The event's day without signal: what is tapped waits on this phone and is sent in order, once.
(() => {
  "use strict";
  const box = document.querySelector("[data-paddock]");
  if (!box) return;
  const { write, state, member } = box.dataset;
  const FORMAT = 1;
  const open = new Promise((done, fail) => {
    const asked = indexedDB.open("paddock", FORMAT);
    asked.onupgradeneeded = () => asked.result.createObjectStore("writes", { keyPath: "n", autoIncrement: true });
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
  });
  // Resolves when it is on the disk of the phone, not before.
  const store = async (how, act) => {
    const work = (await open).transaction("writes", how, { durability: "strict" });
    const asked = act(work.objectStore("writes"));
    return new Promise((done, fail) => {
      work.oncomplete = () => done(asked.result);
      work.onabort = work.onerror = () => fail(work.error);
    });
  };
  const waiting = async () => (await store("readonly", (rows) => rows.getAll()));
  const add = (row) => store("readwrite", (rows) => rows.add(row));
  const put = (row) => store("readwrite", (rows) => rows.put(row));
  const drop = (n) => store("readwrite", (rows) => rows.delete(n));
  const clock = (ms) => new Date(ms).toTimeString().slice(0, 5);
  const say = (id, words) => { const line = document.getElementById(id); if (line) line.textContent = words; };
  const row = (item) => document.getElementById(item);

  const show = (item, words, standing, version, acts) => {
    const li = row(item);
    if (!li) return;
    li.dataset.state = standing;
    if (version !== undefined) li.dataset.version = version;
    li.querySelector("[data-words]").textContent = words;
    if (acts) li.querySelectorAll("button[name=to]").forEach((act) => { act.hidden = !acts.includes(act.value); });
  };

  const button = (words, act, kind = "") => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = kind;
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  };

  const draw = async () => {
    const rows = await waiting();
    const mine = rows.filter((each) => each.member === member);
    const queued = mine.filter((each) => !each.told);
    const told = mine.filter((each) => each.told);
    const others = rows.length - mine.length;
    let words = queued.length
      ? `${queued.length} saved on this phone and not sent yet, the oldest from ${clock(queued[0].at)}.`
      : "All is sent.";
    if (others) words += ` ${others} more were written under another name: sign in under that name to send them.`;
    if (queued.length && Date.now() - queued[0].at > 86400000) words += " That is more than a day: find signal.";
    say("paddock-count", words);
    queued.forEach((each) => show(each.item, `${each.to}, saved on this phone ${clock(each.at)}`, each.to));
    const list = document.getElementById("paddock-told");
    list.replaceChildren(...told.map((each) => {
      const li = document.createElement("li");
      const name = row(each.item)?.querySelector("[data-name]")?.textContent || each.item;
      const said = document.createElement("p");
      said.textContent = `${name}, ${each.to} at ${clock(each.at)}: ${each.told}`;
      const acts = document.createElement("div");
      acts.className = "acts";
      if (each.clash) {
        acts.append(button("Mine is right: set it", async () => {
          await drop(each.n);
          await keep({ ...each, n: undefined, seen: each.version });
        }, "main"));
      }
      acts.append(button(each.clash ? "Leave it as it is" : "Seen", async () => { await drop(each.n); draw(); }));
      li.append(said, acts);
      return li;
    }));
    document.getElementById("paddock-clashes").hidden = !told.length;
  };

  const keep = async (entry) => {
    const { n, told, clash, version, ...kept } = entry;
    await add({ ...kept, format: FORMAT, key: crypto.randomUUID(), at: Date.now(), member });
    await draw();
    send();
  };

  const reach = async (url, options = {}) => {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), 5000);
    try {
      return await fetch(url, { credentials: "same-origin", signal: stop.signal, ...options });
    } finally {
      clearTimeout(timer);
    }
  };

  // The token and what stands now; null without signal, or when nobody is signed in any more.
  const fresh = async () => {
    const answer = await reach(state, { headers: { Accept: "application/json" } });
    if (answer.redirected || !answer.ok) {
      say("paddock-count", "The garage wants you to sign in again; what waits on this phone is kept.");
      return null;
    }
    return answer.json();
  };

  let sending = false;
  const send = async () => {
    if (sending) return;
    sending = true;
    try {
      const now = await fresh();
      if (!now) return;
      if (now.member !== member) return location.reload();
      now.items.forEach((each) => show(each.item, each.words, each.state, each.version, each.acts));
      const queue = (await waiting()).filter((one) => one.member === member && !one.told);
      for (const each of queue) {
        const body = new URLSearchParams({
          item: each.item, to: each.to, value: each.value || "", note: each.note || "",
          seen: each.seen, at: new Date(each.at).toISOString(), csrfmiddlewaretoken: now.token,
        });
        const answer = await reach(write, {
          method: "POST", body, headers: { Accept: "application/json", "Idempotency-Key": each.key },
        });
        if (answer.status >= 500 || answer.status === 429) break;
        const kind = answer.headers.get("Content-Type") || "";
        if (!kind.includes("json")) {
          if (answer.redirected && answer.ok) break; // signed out between two writes: all of them wait
          each.told = `Refused (${answer.status}).`;
          await put(each);
          continue;
        }
        const said = await answer.json();
        if (said.words) show(each.item, said.words, said.state, said.version, said.acts);
        // Answered once already, and the answer was lost: what stands tells whether it was taken.
        if (said.told === undefined && said.state !== each.to) {
          said.told = `It stands otherwise: ${said.words}.`;
          said.clash = true;
        }
        if (!said.told) {
          // What this phone wrote of it afterwards was written knowing this.
          for (const later of queue) {
            if (later.n > each.n && later.item === each.item && later.seen === each.seen) {
              later.seen = said.version;
              await put(later);
            }
          }
        }
        if (said.told) {
          await put({ ...each, told: said.told, clash: !!said.clash, version: said.version });
        } else {
          await drop(each.n);
        }
      }
    } catch {
      // No signal: it all stays where it is.
    } finally {
      sending = false;
      await draw();
    }
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
    if (lacks) lacks.hidden = !missing;
    if (missing) return form.querySelector(`[name=${asked}]`)?.focus();
    keep({
      item: form.dataset.item, to, note, value: sent.get("value") || "", seen: Number(li.dataset.version),
    }).then(() => form.reset(), () => say("paddock-count", "This phone would not save it: write it on paper."));
  }, true);

  document.getElementById("paddock-send")?.addEventListener("click", send);
  addEventListener("online", send);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
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
  draw().then(send);
})();
