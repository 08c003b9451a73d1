/** The service worker's registration, and the offer of a new build: never taken by itself (S18). */
import { computed, type ReadonlySignal, signal } from "@preact/signals";

const waiting = signal<ServiceWorker | null>(null);

/** True when a new build is on the phone and waits for the person's yes or the next cold start. */
export const newBuild: ReadonlySignal<boolean> = computed(() => waiting.value !== null);

/** The person's yes: the waiting build takes over and the page is opened again with it. */
export function takeNewBuild(): void {
  const worker = waiting.peek();
  if (!worker) return;
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  worker.postMessage({ type: "TAKE_OVER" });
}

export function startServiceWorker(): void {
  if (import.meta.env.DEV || !("serviceWorker" in navigator)) return;
  navigator.serviceWorker
    .register("/serviceworker.js", { updateViaCache: "none" })
    .then(watch)
    .catch(() => {
      // Without it the app works on while the page is open; the next start tries again.
    });
}

function watch(registration: ServiceWorkerRegistration): void {
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const fresh = registration.installing;
    fresh?.addEventListener("statechange", () => fresh.state === "installed" && offer(fresh));
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => undefined);
  });
}

/** The very first worker replaces nothing and needs no yes. */
function offer(worker: ServiceWorker | null): void {
  if (worker && navigator.serviceWorker.controller) waiting.value = worker;
}
