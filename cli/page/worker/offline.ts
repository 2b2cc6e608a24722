// The page's service worker: keeps the built files in the browser, so that the page works without a network. It hands out these and nothing
// else; another address goes to the network as if it were not there.
declare const self: ServiceWorkerGlobalScope;
declare const __GURDYBENCH_FILES__: readonly string[];
declare const __GURDYBENCH_BUILD__: string;

const NAME = `gurdybench-${__GURDYBENCH_BUILD__}`;
const SCOPE = self.registration.scope;
const kept = new Set(__GURDYBENCH_FILES__.map((path) => new URL(path, SCOPE).href));

self.addEventListener("install", (event) => {
  // The server's own copy, not one that the browser kept from an older build.
  const requests = [...kept].map((url) => new Request(url, { cache: "reload" }));
  event.waitUntil(caches.open(NAME).then((cache) => cache.addAll(requests)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((name) => name.startsWith("gurdybench-") && name !== NAME))
      .then((old) => Promise.all(old.map((name) => caches.delete(name)))),
  );
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  url.hash = "";
  url.search = "";
  const wanted = url.href === SCOPE ? new URL("index.html", SCOPE).href : url.href;
  if (event.request.method !== "GET" || !kept.has(wanted)) return;
  event.respondWith(
    caches.open(NAME).then(async (cache) => (await cache.match(wanted)) ?? fetch(event.request)),
  );
});

export {};
