// Keeps the page on this device, so that it opens without a network.
//
// All files of one build lie in one cache that is named after the build; a page is served from one build as a whole. A newer
// build is fetched beside it and waits until someone asks for it. `cargo xtask build` fills in the build and its files; a
// build for developers has no list, and then this script only clears up after an older one.

const BUILD = '%BUILD%';
const FILES = %OFFLINE_FILES%;
const PREFIX = 'layshaft-';
const CACHE = PREFIX + BUILD;

async function fetchAll() {
  const cache = await caches.open(CACHE);
  // Past the browser's own cache, which may hold files of another build under the same names.
  await cache.addAll(['./', ...FILES].map((name) => new Request(name, { cache: 'no-cache' })));
}

async function removeOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
}

async function withdraw() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX)).map((name) => caches.delete(name)));
  await self.registration.unregister();
}

async function answer(request) {
  const cache = await caches.open(CACHE);
  const kept = request.mode === 'navigate'
    ? await cache.match('./')
    // A tab of the build before may still ask for a file of its own.
    : await cache.match(request, { ignoreSearch: true }) ?? await caches.match(request);
  return kept ?? fetch(request);
}

function isThePage(url) {
  return url.pathname === new URL('./', self.registration.scope).pathname || url.pathname.endsWith('/index.html');
}

if (FILES === null) {
  addEventListener('install', () => self.skipWaiting());
  addEventListener('activate', (event) => event.waitUntil(withdraw()));
} else {
  addEventListener('install', (event) => event.waitUntil(fetchAll()));
  // The first one serves at once, for what the open page may still want; a newer one comes here only when it was asked for.
  addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
  addEventListener('fetch', (event) => {
    const { request } = event;
    const url = new URL(request.url);
    if (request.method !== 'GET' || url.origin !== self.location.origin) return;
    if (request.mode === 'navigate' && !isThePage(url)) return;
    event.respondWith(answer(request));
  });
  addEventListener('message', (event) => {
    if (event.data === 'take over') self.skipWaiting();
    // Said by a page of this build that has loaded: what older builds left can go once no other tab may use it.
    if (event.data === 'tidy') {
      event.waitUntil(self.clients.matchAll({ type: 'window' }).then((tabs) => (tabs.length > 1 ? undefined : removeOthers())));
    }
  });
}
