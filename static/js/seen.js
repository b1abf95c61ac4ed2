// A page says that somebody changed what it shows, and offers it as it is now; what is typed into it stays.
(() => {
  "use strict";
  const EVERY = 5000; // while it is looked at
  const PATIENT = 60000; // without signal, or signed out
  const news = document.getElementById("news");
  const drawn = () => document.getElementById("menu")?.dataset.writes;
  if (!news || drawn() === undefined) return;

  const offer = (words, ...acts) => {
    const line = document.createElement("p");
    line.append(words, " ", ...acts);
    news.replaceChildren(line);
  };
  const part = (name, words, more) => Object.assign(document.createElement(name), { textContent: words, ...more });
  const typed = () => [...document.querySelectorAll("#main input:not([type=hidden]), #main textarea, #main select")]
    .some((field) => {
      if (field.type === "checkbox" || field.type === "radio") return field.checked !== field.defaultChecked;
      if (field.tagName === "SELECT") {
        const first = [...field.options].findIndex((option) => option.defaultSelected);
        return field.selectedIndex !== Math.max(first, 0);
      }
      return field.type === "file" ? field.files.length > 0 : field.value !== field.defaultValue;
    });
  const words = (main) => main.textContent.replace(/\s+/g, " ").trim();

  // What the page would show now; a page that cannot be asked for again (an answer, a token) is left alone.
  let shown = null;
  const differs = async () => {
    const main = document.getElementById("main");
    if (main.querySelector(".link-out, .problems, [aria-busy]")) return false;
    const answer = await fetch(location.href, { headers: { Accept: "text/html" }, credentials: "same-origin" });
    if (!answer.ok || answer.redirected) return false;
    const now = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("main");
    return !!now && words(now) !== shown;
  };

  // The count that this page is known to stand for: it moves on where the change is none of this page's.
  let known = drawn();
  const note = () => {
    known = drawn();
    shown = words(document.getElementById("main"));
    news.replaceChildren();
  };
  note();
  document.addEventListener("htmx:afterSettle", ({ detail }) => {
    if (detail.target.id === "main") note();
    else shown = words(document.getElementById("main"));
  });

  const tell = () => {
    if (typed()) {
      const beside = part("a", "Open it in another tab", { href: location.href, target: "_blank", rel: "noopener" });
      offer("Somebody changed what this page shows. What you typed stays here.", beside);
    } else {
      const show = part("button", "Show it", { type: "button", className: "plain" });
      show.addEventListener("click", () => location.reload());
      offer("Somebody changed what this page shows.", show);
    }
  };

  const ask = async () => {
    if (document.hidden || !navigator.onLine) return PATIENT / 4;
    try {
      const answer = await fetch(`${news.dataset.seen}?writes=${known}`, {
        headers: { "HX-Request": "true" }, credentials: "same-origin",
      });
      if (answer.status === 204) return EVERY;
      if (!answer.ok || answer.redirected) return PATIENT;
      const count = await answer.text();
      const before = known;
      if (await differs()) tell();
      if (known === before) known = count;
      return EVERY;
    } catch {
      return PATIENT;
    }
  };
  let timer = 0;
  const round = async () => {
    clearTimeout(timer);
    const wait = await ask();
    clearTimeout(timer);
    timer = setTimeout(round, wait);
  };
  timer = setTimeout(round, EVERY);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) round(); });
})();
