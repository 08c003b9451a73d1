/// <reference lib="webworker" />
/**
 * The service worker: everything the app needs to start cold and work with no network, cached as
 * one build. It never caches the API, never takes over by itself, and never touches the book.
 */
import { cacheNames, clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, PrecacheController, PrecacheRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { type Builds, buildsKept, isHashed, toForget } from "./builds";
import { isSolver, solverFile } from "./solver";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

const build = new PrecacheController();
build.addToCacheList(self.__WB_MANIFEST);
self.addEventListener("install", (event) => void build.install(event));
// Not the controller's own: that forgets the build before at once, and a page of it may still be open.
self.addEventListener("activate", (event) => event.waitUntil(forgetOldBuilds()));
registerRoute(new PrecacheRoute(build));
cleanupOutdatedCaches();

// The first visit's page is served from here at once, so that its lazy screens open without a network too.
clientsClaim();

/** Every page is the one shell; the server's own pages and the API are not the app's. */
registerRoute(
  new NavigationRoute(build.createHandlerBoundToURL("/"), { denylist: [/^\/api\//, /^\/admin(\/|$)/] }),
);

/** A worker that still waits for an answer holds the next one back: whoever gives way waits for nothing any more. */
const leaving = new AbortController();
const ask = (request: Request) => fetch(request, { signal: leaving.signal });

registerRoute(
  ({ url, sameOrigin }) => sameOrigin && isSolver(url.href),
  ({ request }) => solverFile(request, caches, ask),
);

/** A page of an older build asks for its own assets: kept here, else the server keeps those of two builds as well. */
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && isHashed(url.href),
  async ({ url, request }) =>
    (await (await caches.open(cacheNames.precache)).match(url.href)) ?? ask(request),
);

const NOTES = "evenfall-builds";
const NOTE = "/builds";

async function forgetOldBuilds(): Promise<void> {
  const [cache, notes] = await Promise.all([caches.open(cacheNames.precache), caches.open(NOTES)]);
  const cached = (await cache.keys()).map((request) => request.url);
  const noted = ((await (await notes.match(NOTE))?.json()) ?? []) as Builds;
  const present = [...build.getURLsToCacheKeys().values()];
  const kept = buildsKept(present, noted, cached);
  // Noted first: a worker ended here forgets too little, never too much.
  await notes.put(NOTE, new Response(JSON.stringify(kept)));
  await Promise.all(toForget(cached, present, kept).map((address) => cache.delete(address)));
}

// A new build waits for the person's yes or for all pages to be closed (S18); hence no skipWaiting at install.
self.addEventListener("message", (event) => {
  if (event.data?.type === "GIVE_WAY") leaving.abort();
  if (event.data?.type === "TAKE_OVER") void self.skipWaiting();
});
