// What was written without signal waits on this phone under its writer's name, is counted on every page and goes out
// from any of them, in order and once.
(() => {
  "use strict";
  const NAME = "paddock";
  const FORMAT = 1;
  const member = document.getElementById("unsent")?.dataset.member || "";
  let opened = null;
  const open = () => {
    opened ??= new Promise((done, fail) => {
      const asked = indexedDB.open(NAME, FORMAT);
      asked.onupgradeneeded = () => asked.result.createObjectStore("writes", { keyPath: "n", autoIncrement: true });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
    return opened;
  };
  // Resolves when it is on the disk of the phone, not before.
  const store = async (how, act) => {
    const work = (await open()).transaction("writes", how, { durability: "strict" });
    const asked = act(work.objectStore("writes"));
    return new Promise((done, fail) => {
      work.oncomplete = () => done(asked.result);
      work.onabort = work.onerror = () => fail(work.error);
    });
  };
  const all = () => store("readonly", (rows) => rows.getAll());
  const add = (row) => store("readwrite", (rows) => rows.add(row));
  const put = (row) => store("readwrite", (rows) => rows.put(row));
  const drop = (n) => store("readwrite", (rows) => rows.delete(n));
  const waiting = async () => (await all()).filter((row) => row.member === member && !row.told && row.write);

  // `18:20` by the garage's clock, as its pages have it, with the day when that is not today.
  const timeZone = document.getElementById("unsent")?.dataset.zone || undefined;
  const inWords = (how) => (ms) => new Intl.DateTimeFormat("en-GB", { timeZone, ...how }).format(ms);
  const time = inWords({ hour: "2-digit", minute: "2-digit" });
  const day = inWords({ weekday: "short", day: "numeric", month: "short" });
  const clock = (ms) => (day(ms) === day(Date.now()) ? time(ms) : `${day(ms)} ${time(ms)}`.replace(",", ""));

  const reach = async (url, options = {}) => {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), 5000);
    try {
      return await fetch(url, { credentials: "same-origin", signal: stop.signal, ...options });
    } finally {
      clearTimeout(timer);
    }
  };
  // A proxy, a gateway or somebody's sign-on page answers too: only what the garage itself says counts.
  const ours = (answer) => answer.headers.has("Garage-Says");

  // What is to be said until it is put right; a page may hang on to what the garage answers.
  let trouble = "";
  const hooks = { standing() {}, drawn() {} };

  // The token and what stands now; null without signal, or when nobody is signed in any more.
  const fresh = async (url) => {
    const answer = await reach(url, { headers: { Accept: "application/json" } });
    if (!ours(answer) || answer.status >= 500) return null;
    if (answer.redirected || !answer.ok) {
      trouble = "The garage wants you to sign in again; what waits on this phone is kept.";
      return null;
    }
    trouble = "";
    return answer.json();
  };

  // One write; whether the next may be sent. It says whose it is: the garage takes it from nobody else.
  const post = async (row, token) => {
    const body = new URLSearchParams({
      item: row.item, to: row.to, value: row.value || "", note: row.note || "", unit: row.unit || "",
      wrench: row.wrench || "", seen: row.seen, at: new Date(row.at).toISOString(), member, csrfmiddlewaretoken: token,
    });
    const headers = { Accept: "application/json", "Idempotency-Key": row.key };
    const answer = await reach(row.write, { method: "POST", body, headers });
    if (!ours(answer) || answer.status >= 500 || answer.status === 429) return false;
    if (answer.status === 409) return false; // somebody else signed in meanwhile, in another tab: it waits
    if (!(answer.headers.get("Content-Type") || "").includes("json")) {
      // Signed out, or another signed in, between two writes: all of them wait.
      if (answer.status === 403 || (answer.redirected && answer.ok)) return false;
      await put({ ...row, told: `Refused (${answer.status}).` });
      return true;
    }
    const said = await answer.json();
    if (said.words) hooks.standing({ ...said, item: row.item });
    // Answered once already, and the answer was lost: what stands tells whether it was taken.
    if (said.told === undefined && said.state !== row.to) {
      said.told = `It stands otherwise: ${said.words}.`;
      said.clash = true;
    }
    if (said.told) {
      const { told, clash, version, acts, asks } = said;
      await put({ ...row, told, clash: !!clash, version, acts, asks });
      return true;
    }
    // What this phone wrote of it afterwards was written knowing this.
    for (const later of await waiting()) {
      if (later.n > row.n && later.item === row.item && later.seen === row.seen) {
        await put({ ...later, seen: said.version });
      }
    }
    await drop(row.n);
    return true;
  };

  const round = async (state) => {
    try {
      const states = new Set([...(await waiting()).map((row) => row.state), ...(state ? [state] : [])]);
      for (const url of states) {
        const now = await fresh(url);
        if (!now) break;
        if (now.member !== member) { location.reload(); return; }
        if (url === state) now.items.forEach(hooks.standing);
        const next = async (n) => (await waiting()).find((row) => row.state === url && row.n > n);
        // Each is read when its turn comes: what was tapped meanwhile, and what one before it taught it, included.
        for (let row = await next(0); row && await post(row, now.token);) row = await next(row.n);
      }
    } catch {
      // No signal: it all stays where it is.
    } finally {
      await draw();
    }
  };
  // Asked while it sends, it goes once more when that is over; whoever asked waits for both.
  let sending = null;
  let asked = null;
  const send = (state = "") => {
    if (!member) return null;
    asked = state;
    sending ??= (async () => {
      while (asked !== null) {
        const next = asked;
        asked = null;
        await round(next);
      }
    })().finally(() => { sending = null; });
    return sending;
  };

  const part = (name, words, more = {}) => Object.assign(document.createElement(name), { textContent: words, ...more });
  const names = (rows) => {
    const by = new Map();
    rows.forEach((row) => by.set(row.name || "", (by.get(row.name || "") || 0) + 1));
    return [...by].map(([name, count]) => {
      const [were, them] = count > 1 ? ["were", "them"] : ["was", "it"];
      return name ? `${count} more by ${name}: sign in as ${name} to send ${them}.`
        : `${count} more ${were} written under another name: sign in under that name to send ${them}.`;
    }).join(" ");
  };
  const counted = (rows) => {
    const mine = rows.filter((row) => row.member === member && !row.told);
    const others = rows.filter((row) => row.member !== member);
    const words = mine.length
      ? [`${mine.length} saved on this phone and not sent yet, the oldest from ${clock(mine[0].at)}.`] : [];
    if (others.length) words.push(names(others));
    if (mine.length && Date.now() - mine[0].at > 86400000) words.push("That is more than a day: find signal.");
    return { mine, words: words.join(" ") };
  };

  const draw = async () => {
    const bar = document.getElementById("unsent");
    const rows = await all();
    const { mine, words } = counted(rows);
    const back = rows.filter((row) => row.member === member && row.told);
    const lines = [];
    if (trouble) lines.push(part("p", trouble));
    if (back.length) {
      const line = part("p", `${back.length} came back: `);
      line.append(part("a", "look again", { href: `${back[0].page || ""}#${back[0].item}` }));
      lines.push(line);
    }
    if (words && !bar?.hasAttribute("data-quiet")) {
      const line = part("p", words);
      if (mine.length) line.append(" ", part("button", "Send now", { type: "button", onclick: () => send() }));
      lines.push(line);
    }
    bar?.replaceChildren(...lines);
    hooks.drawn({ rows, counted: counted(rows), back });
  };
  const say = (words) => { trouble = words; return draw().catch(() => {
    document.getElementById("unsent")?.replaceChildren(part("p", words));
  }); };

  window.unsent = { member, all, add, put, drop, send, draw, say, clock, counted, hooks, FORMAT };
  // Nothing is opened where nothing was ever written.
  const known = indexedDB.databases ? indexedDB.databases() : Promise.resolve([{ name: NAME }]);
  const begin = () => known.then((kept) => {
    if (kept.some((base) => base.name === NAME)) draw().then(() => send(), () => {});
  });
  if (!document.querySelector("[data-paddock]")) {
    begin();
    addEventListener("online", begin);
  }
})();
