/// <reference lib="webworker" />
/**
 * The service worker: everything the app needs to start cold and work with no network, cached as
 * one build. It never caches the API, never takes over by itself, and never touches the book.
 */
import { clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();

// The first visit's page is served from here at once, so that its lazy screens open without a network too.
clientsClaim();

/** Every page is the one shell; the server's own pages and the API are not the app's. */
registerRoute(
  new NavigationRoute(createHandlerBoundToURL("/"), { denylist: [/^\/api\//, /^\/admin(\/|$)/] }),
);

// A new build waits for the person's yes or for all pages to be closed (S18); hence no skipWaiting at install.
self.addEventListener("message", (event) => {
  if (event.data?.type === "TAKE_OVER") void self.skipWaiting();
});
