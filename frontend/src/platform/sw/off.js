/**
 * The kill-switch: served at /serviceworker.js in place of the app's worker while EVENFALL_WORKER=off. It takes over
 * at once, throws away what was cached, and unregisters itself; pages then come from the server. It touches Cache
 * Storage only: the book lies in IndexedDB, and stays there. Pages go on as they are until the person opens them anew.
 */
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(switchOff()));

async function switchOff() {
  const names = await caches.keys();
  await Promise.all(names.map((name) => caches.delete(name)));
  await self.registration.unregister();
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  for (const page of pages) page.postMessage({ type: "SWITCHED_OFF" });
}
