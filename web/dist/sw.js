// Keeps the page itself (not what it shows) for a reload without its server. The server comes first: only when it does not
// answer is the kept copy taken. Questions to /api are never kept: an old answer must not be taken for a new one.
const shelf = "redd-page-1";
const shell = [
  "./",
  "./early.js",
  "./assets/redd.js",
  "./assets/shared.js",
  "./assets/common.js",
  "./assets/later.js",
  "./assets/seldom.js",
  "./assets/spanish.js",
  "./assets/redd.css",
  "./favicon.svg",
];

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(shelf)
      .then((cache) => cache.addAll(shell))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

async function answer(event) {
  const { request } = event;
  const cache = await caches.open(shelf);
  try {
    const fresh = await fetch(request);
    // A full or forbidden storage must not stand between the reader and what the server says.
    if (fresh.ok) event.waitUntil(cache.put(request, fresh.clone()).catch(() => undefined));
    return fresh;
  } catch (failure) {
    const kept = await cache.match(request, { ignoreSearch: true });
    if (kept) return kept;
    throw failure;
  }
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin || pathname.startsWith("/api/")) return;
  event.respondWith(answer(event));
});
