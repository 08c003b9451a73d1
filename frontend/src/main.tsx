/** Start: theme, session, first paint; then the book, the engine, the sync and the service worker. */
import "./models/theme";
import "./styles/index.css";
import { render } from "preact";
import { App } from "./app";
import { startEngine } from "./engine";
import { startSession } from "./models/session";
import { openChosen } from "./store";
import { startServiceWorker } from "./sw/register";

/** Runs once the browser has painted a frame, so that nothing heavy delays the first look. */
function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work, 0));
}

const AGAIN_MS = 2000;

/** Syncing is a chunk of its own; tried again until it could be read. */
function startSync(): Promise<unknown> {
  return import("./models/sync").then(
    (sync) => sync.startSync(),
    () => setTimeout(startSync, AGAIN_MS),
  );
}

const place = document.getElementById("app");
if (!place) throw new Error("index.html lacks #app");
startSession();
render(<App />, place);
afterPaint(() => {
  openChosen();
  startEngine();
  void startSync();
  startServiceWorker();
});
