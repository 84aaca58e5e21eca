// Keeps the page and what was last seen of the yard, for use out of reach. Entries are queued by the page itself.
const shell = "shell-__VERSION__";
const seen = "seen-1";
const files = ["__FILES__"];
const patience_ms = 6000; // chosen: a weak signal is worse than none

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(shell)
      .then((cache) => cache.addAll(files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter((name) => name !== shell && name !== seen).map((name) => caches.delete(name))),
      )
      .then(() => self.clients.claim()),
  );
});

function inTime(request) {
  return Promise.race([
    fetch(request),
    new Promise((_, reject) => setTimeout(() => reject(new Error("no answer in time")), patience_ms)),
  ]);
}

/** The answer with the moment it was true, ms since 1970. */
async function stamped(answer) {
  const headers = new Headers(answer.headers);
  headers.set("x-seen-at", String(Date.now()));
  return new Response(await answer.blob(), { status: answer.status, headers });
}

/** The network's answer; out of reach, the one last seen, marked as such. */
async function networkFirst(request) {
  const cache = await caches.open(seen);
  try {
    const answer = await inTime(request);
    if (answer.ok) await cache.put(request, await stamped(answer.clone()));
    if (answer.status === 401) await caches.delete(seen);
    return answer;
  } catch (error) {
    const kept = await cache.match(request);
    if (!kept) throw error;
    const headers = new Headers(kept.headers);
    headers.set("x-last-seen", headers.get("x-seen-at") ?? "1");
    return new Response(await kept.blob(), { status: 200, headers });
  }
}

const remembered = /^\/api\/(site|yard|today|fills\/[^/]+(\/(readings|state))?|vessels\/[^/]+\/fills)$/;

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  if (remembered.test(url.pathname)) {
    event.respondWith(networkFirst(event.request));
  } else if (!url.pathname.startsWith("/api/")) {
    const asked = event.request.mode === "navigate" ? "/" : event.request;
    event.respondWith(caches.match(asked, { cacheName: shell }).then((kept) => kept ?? fetch(event.request)));
  }
});
