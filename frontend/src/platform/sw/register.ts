/** The service worker's registration, and the offer of a new build: never taken by itself (S18). */
import { computed, type ReadonlySignal, signal } from "@preact/signals";

const waiting = signal<ServiceWorker | null>(null);

/** True when a new build is on the phone and waits for the person's yes or the next cold start. */
export const newBuild: ReadonlySignal<boolean> = computed(() => waiting.value !== null);

/**
 * Whether an older build served this page. On a first visit nothing did: the very first worker replaces nothing and
 * needs no yes, though it claims the page while its "installed" is still being told (WebKit).
 */
const servedByOlder = Boolean(globalThis.navigator?.serviceWorker?.controller);

const off = signal(false);
/** True when the server has switched the worker off while it served this page: the next start comes from the server. */
export const switchedOff: ReadonlySignal<boolean> = off;

/** The person's yes: the waiting build takes over, whatever the present one waits for, and the page is opened again. */
export function takeNewBuild(): void {
  const worker = waiting.peek();
  if (!worker) return;
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  navigator.serviceWorker.controller?.postMessage({ type: "GIVE_WAY" });
  worker.postMessage({ type: "TAKE_OVER" });
}

export function startServiceWorker(): void {
  if (import.meta.env.DEV || !("serviceWorker" in navigator)) return;
  watchForSwitch(servedByOlder);
  navigator.serviceWorker
    .register("/serviceworker.js", { updateViaCache: "none" })
    .then((registration) => watchForBuilds(registration, servedByOlder))
    .catch(() => {
      // Without it the app works on while the page is open; the next start tries again.
    });
}

/** Offers each new build that waits; `served`: whether a worker controlled this page when it was opened. */
export function watchForBuilds(registration: ServiceWorkerRegistration, served: boolean): void {
  if (served) {
    offer(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const fresh = registration.installing;
      fresh?.addEventListener("statechange", () => offer(fresh));
    });
  }
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => undefined);
  });
}

/** A page that came from the server already has nothing to open again. */
export function watchForSwitch(served: boolean): void {
  if (!served) return;
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    if (data?.type === "SWITCHED_OFF") off.value = true;
  });
}

/** Only a worker that waits is offered, and only for as long as it does. */
function offer(worker: ServiceWorker | null): void {
  if (worker?.state !== "installed") return;
  waiting.value = worker;
  worker.addEventListener("statechange", () => {
    if (waiting.peek() === worker && worker.state !== "installed") waiting.value = null;
  });
}
