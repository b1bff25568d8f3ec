// Keeps the built page: its files by their content, so that it opens when nobody answers. What is asked of the server
// under api/ passes by. NAME and FILES are put in by the build.
const NAME = "__NAME__";
const FILES = __FILES__;
const OWN = "tapemark ";
/** A server on this machine that takes longer than this is as good as away. */
const PATIENCE_MS = 3000;

const kept = new Set(FILES.map((file) => new URL(file, self.registration.scope).href));
const hashed = (url) => url.pathname.includes("/assets/");

self.addEventListener("install", (event) => {
  const keep = async () => {
    const cache = await caches.open(OWN + NAME);
    const fresh = (file) => (file.startsWith("./assets/") ? "default" : "no-cache");
    await cache.addAll(FILES.map((file) => new Request(file, { cache: fresh(file) })));
  };
  event.waitUntil(keep());
});

self.addEventListener("activate", (event) => {
  const tidy = async () => {
    for (const name of await caches.keys())
      if (name.startsWith(OWN) && name !== OWN + NAME) await caches.delete(name);
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (request.method !== "GET" || !kept.has(url.href)) return;
  event.respondWith(hashed(url) ? fromCache(url.href, request) : fromServer(url.href, request));
});

/** Named by its content: what is kept is what would come. */
async function fromCache(address, request) {
  const cache = await caches.open(OWN + NAME);
  return (await cache.match(address)) ?? fetch(request);
}

/** The page itself may be newer on the server. */
async function fromServer(address, request) {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (answer.ok) return answer;
    throw new Error(`answered ${answer.status}`);
  } catch (error) {
    const cache = await caches.open(OWN + NAME);
    const copy = await cache.match(address);
    if (copy) return copy;
    throw error;
  }
}
