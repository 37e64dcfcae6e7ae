// Registers the service worker, which keeps the page on this device, and offers a newer build when one is ready.
//
// The offer is an event and a mark at the document's root, for a program that isn't listening yet; nothing is loaded until the
// event that asks for it comes. A build for developers keeps nothing, and takes away what another build left here.

const KEEPS = '%OFFLINE%' === 'yes';

function offer() {
  document.documentElement.dataset.newer = 'ready';
  dispatchEvent(new CustomEvent('layshaft-newer'));
}

function watch(worker) {
  worker?.addEventListener('statechange', () => {
    // The first worker of all is no newer one.
    if (worker.state === 'installed' && navigator.serviceWorker.controller) offer();
  });
}

async function register() {
  const registration = await navigator.serviceWorker.register('service-worker.js');
  if (registration.waiting && navigator.serviceWorker.controller) offer();
  watch(registration.installing);
  registration.addEventListener('updatefound', () => watch(registration.installing));
  navigator.serviceWorker.controller?.postMessage('tidy');

  addEventListener('layshaft-load-newer', () => {
    const reload = () => location.reload();
    const { waiting } = registration;
    if (!waiting) return reload();
    navigator.serviceWorker.addEventListener('controllerchange', reload, { once: true });
    waiting.postMessage('take over');
  });
  // A page that stays open for days asks when it is looked at again.
  addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') registration.update().catch(() => {});
  });
}

async function withdraw() {
  const registrations = await navigator.serviceWorker.getRegistrations();
  await Promise.all(registrations.map((registration) => registration.unregister()));
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith('layshaft-')).map((name) => caches.delete(name)));
}

const isEmbedded = new URLSearchParams(location.search).has('embed');

if ('serviceWorker' in navigator && !isEmbedded) {
  const start = KEEPS ? register : withdraw;
  // After everything that the page itself needs. A browser that refuses only goes without.
  const begin = () => start().catch(() => {});
  if (document.readyState === 'complete') begin();
  else addEventListener('load', begin, { once: true });
}
