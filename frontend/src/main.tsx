/** Start: theme, store, first paint; then the engine, the sync and the service worker. */
import "./models/theme";
import "./styles/index.css";
import { render } from "preact";
import { App } from "./app";
import { startEngine } from "./engine";
import { startSession } from "./models/session";
import { startSync } from "./models/sync";
import { startServiceWorker } from "./sw/register";

/** Runs once the browser has painted a frame, so that nothing heavy delays the first look. */
function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work, 0));
}

const place = document.getElementById("app");
if (!place) throw new Error("index.html lacks #app");
startSession();
render(<App />, place);
afterPaint(() => {
  startEngine();
  startSync();
  startServiceWorker();
});
