/** Start: theme, session, first paint; then the book, the engine, the sync and the service worker. */
import "../ui/styles/index.css";
import { render } from "preact";
import { startClashes } from "../features/clash";
import { startEngine } from "../platform/engine";
import { heedSignOut, startSession } from "../platform/session/session";
import { recoverTheme } from "../platform/session/theme";
import { openChosen } from "../platform/store";
import { startServiceWorker } from "../platform/sw/register";
import { inTurn, takeTurns } from "../platform/turns";
import { showRest } from "../records/rest";
import { startWayBack } from "../ui/parts/way-back";
import { App } from "./app";
import { followFrames, offerFrames } from "./frames";

const FIRST_CONTENT = "first-contentful-paint";
const AT_THE_LATEST_MS = 5000;

/** Runs once the first content is on the screen, so that nothing heavy delays the first look. */
function afterPaint(work: () => void): void {
  let waiting = true;
  const once = () => {
    if (waiting) work();
    waiting = false;
  };
  new PerformanceObserver((list) => list.getEntriesByName(FIRST_CONTENT).length > 0 && once()).observe({
    type: "paint",
    buffered: true,
  });
  // A page out of sight paints nothing, and a browser may not note its paints.
  if (document.visibilityState === "hidden") once();
  else setTimeout(once, AT_THE_LATEST_MS);
}

const AGAIN_MS = 2000;
/** By then whoever only looked what is due has put the phone away again. */
const SOLVER_AFTER_MS = 30_000;

/** A season can be planned without a network from then on, whether its page was opened before or not. */
async function haveSolver(): Promise<void> {
  const { keepSolver, savesData } = await import("../platform/solver/keep");
  if (!savesData()) await keepSolver();
}

/** Syncing is a chunk of its own; tried again until it could be read. */
function startSync(): Promise<unknown> {
  return import("../platform/sync/running").then(
    (sync) => sync.startSync(),
    () => setTimeout(startSync, AGAIN_MS),
  );
}

function start(): void {
  const place = document.getElementById("app");
  if (!place) throw new Error("index.html lacks #app");
  startSession();
  showRest();
  startWayBack();
  render(<App />, place);
  afterPaint(() => {
    openChosen();
    startEngine();
    void startClashes();
    void startSync();
    startServiceWorker();
    void heedSignOut();
    void recoverTheme();
    if (import.meta.env.PROD) followFrames();
    setTimeout(() => void haveSolver().catch(() => undefined), SOLVER_AFTER_MS);
  });
}

if (!offerFrames()) {
  // Only what is read takes turns, never what is drawn: a form drawn a task after a key was pressed hands the next key an
  // older list to change, and the first key is lost.
  takeTurns();
  // The script itself has taken a slow phone long enough.
  inTurn(start);
}
