/**
 * What runs before the app: draws Today as it was kept in local storage (`app/frames`), so that the first paint waits for
 * neither the app's script nor its library, and only then fetches the app, which draws the very same into the very same
 * elements. A tap that comes before is held and given to the app. It stands alone: an import would be one fetch more.
 */
interface Frame {
  book: string;
  build: string;
  language: string;
  /** Minutes, as Date says them: moments are written by this phone's clock. */
  offset: number;
  /** Not shown from this moment on (ms since 1970). */
  until: number | null;
  html: string;
}

/** Whose phone it is, of what the session keeps. */
interface Kept {
  session?: { person?: { id: string }; household?: { id: string } };
}

interface Tap {
  control: HTMLElement;
  says: string;
}

const AT_THE_LATEST_MS = 1000;
const place = document.getElementById("app") as HTMLElement;
const app = new URL(document.querySelector<HTMLElement>("[data-app]")?.dataset["app"] ?? "", location.href)
  .href;
let held: Tap | undefined;

function recall(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}

function here(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Of this person's book, by this very build, for this day, in the words and by the clock of this phone as it is now. */
function kept(): Frame | undefined {
  const who = (recall("evenfall.session") as Kept | null)?.session;
  const frame = recall(`evenfall.frame.${here()}`) as Frame | null;
  const mine = frame && frame.book === `evenfall:${who?.person?.id}:${who?.household?.id}`;
  if (!mine || frame.build !== app || location.pathname !== "/") return undefined;
  const same = frame.language === navigator.language && frame.offset === new Date().getTimezoneOffset();
  return same && Date.now() < (frame.until ?? Number.POSITIVE_INFINITY) ? frame : undefined;
}

const says = (control: HTMLElement): string => `${control.getAttribute("aria-label")} ${control.textContent}`;

function hold(event: Event): void {
  const control = (event.target as Element).closest<HTMLElement>("a, button");
  if (!control) return;
  event.preventDefault();
  event.stopPropagation();
  held = { control, says: says(control) };
}

/** To the same control, if it still is what was tapped. */
function giveBack(): void {
  document.removeEventListener("click", hold, true);
  if (held?.control.isConnected && held.says === says(held.control)) held.control.click();
}

function start(): void {
  import(/* @vite-ignore */ app).finally(giveBack);
}

function afterPaint(work: () => void): void {
  let waiting = true;
  const once = () => {
    if (waiting) work();
    waiting = false;
  };
  // A page out of sight paints nothing.
  if (document.visibilityState === "hidden") once();
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, AT_THE_LATEST_MS);
}

const theme = recall("evenfall.theme");
if (theme === "light" || theme === "dusk") document.documentElement.dataset["theme"] = theme;
const frame = kept();
if (frame) {
  place.innerHTML = frame.html;
  document.addEventListener("click", hold, true);
  afterPaint(start);
} else start();

export {};
