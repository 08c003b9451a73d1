/** The browser's own offer to install the app, kept until the person asks for it (S20). */
import { type ReadonlySignal, signal } from "@preact/signals";

interface InstallPrompt extends Event {
  prompt(): Promise<unknown>;
}

const offered = signal<(() => void) | null>(null);
/** Shows the browser's own question; null where there is none to show, as on every iPhone. */
export const installOffer: ReadonlySignal<(() => void) | null> = offered;

/** True when this page runs from the home screen. */
export function isInstalled(): boolean {
  const standalone = (globalThis.navigator as { standalone?: boolean } | undefined)?.standalone === true;
  return standalone || globalThis.matchMedia?.("(display-mode: standalone)").matches === true;
}

globalThis.addEventListener?.("beforeinstallprompt", (event) => {
  event.preventDefault();
  offered.value = () => {
    offered.value = null;
    void (event as InstallPrompt).prompt();
  };
});
globalThis.addEventListener?.("appinstalled", () => {
  offered.value = null;
});
