// Keeps the event's pages on the phone, and nothing else; forgets them when the garage says no.
"use strict";
const NAME = "paddock-1 ";
const PATIENCE = 3000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

const forget = async (but = "") => {
  for (const name of await caches.keys()) if (name !== but) await caches.delete(name);
};

const cached = async (request) => {
  for (const name of await caches.keys()) {
    const found = await (await caches.open(name)).match(request, { ignoreVary: true });
    if (found) return found;
  }
  return undefined;
};

// Where a page is kept, what is slow is not waited for; where it is not, however long it takes.
const reach = (request, kept) => new Promise((done, fail) => {
  const timer = kept && setTimeout(() => fail(new Error("too slow")), PATIENCE);
  fetch(request).then(done, fail).finally(() => clearTimeout(timer));
});

// A gateway, a proxy or somebody's sign-on page answers too while the garage is off: what does not bear the garage's
// own mark, and what failed, neither hides nor forgets a page that is kept.
const page = async (request) => {
  const before = await cached(request);
  let answer;
  try {
    answer = await reach(new Request(request.url, { credentials: "same-origin", redirect: "follow" }), before);
  } catch {
    return before || new Response(
      "<!doctype html><html lang=en><title>No signal</title><h1>No signal</h1>"
        + "<p>This page was not opened here before, so this phone does not have it. Open it once with signal.</p>"
        + "</html>",
      { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } },
    );
  }
  if (!answer.headers.has("Garage-Says") || answer.status >= 500) return before || answer;
  const whose = answer.headers.get("Paddock-Member");
  if (answer.redirected) {
    await forget();
    return Response.redirect(answer.url);
  }
  if (answer.ok && whose) {
    // One person's pages at a time.
    await forget(NAME + whose);
    const kept = await caches.open(NAME + whose);
    await kept.put(request, answer.clone());
  } else if ([401, 403, 404].includes(answer.status)) {
    await forget();
  }
  return answer;
};

// Names of static files change with their content, so what is kept never goes stale.
const still = async (request) => {
  const found = await cached(request);
  if (found) return found;
  const answer = await fetch(request);
  const [name] = await caches.keys();
  if (answer.ok && name) await (await caches.open(name)).put(request, answer.clone());
  return answer;
};

// The first page was drawn before there was a worker: it says what it is made of.
self.addEventListener("message", (event) => event.waitUntil((async () => {
  const [first, ...pieces] = event.data.filter((url) => new URL(url).origin === location.origin);
  const answer = await page(new Request(first, { credentials: "same-origin" }));
  if (!answer.headers.get("Paddock-Member")) return;
  await Promise.all(pieces.map((url) => still(new Request(url))));
  event.source.postMessage("kept");
})()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(request));
  else if (url.pathname.startsWith("/static/")) event.respondWith(still(request));
});
