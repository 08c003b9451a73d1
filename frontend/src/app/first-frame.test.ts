// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { isoDay } from "../format";
import { bookName } from "../platform/store";
import { type Frame, keepFrame } from "../platform/store/looks";

const BOOK = bookName("sam", "alder");
const SESSION = { session: { person: { id: "sam" }, household: { id: "alder" } }, at: 1 };
const HTML = '<main id="main"><button aria-label="Mowed: Verge">Mowed</button><a href="/log">Log</a></main>';

/** The build that kept it, which is also the one the page names. */
let build: string;
let arrived: () => void;

function page(app = build): HTMLElement {
  document.body.innerHTML = `<script data-app="${app}"></script><div id="app"></div>`;
  return document.getElementById("app") as HTMLElement;
}

/** Rewrites one part of what is kept for today. */
function keep(part: Partial<Frame> & Record<string, unknown> = {}): void {
  keepFrame(isoDay(), { book: BOOK, until: null, html: HTML });
  const key = `evenfall.frame.${isoDay()}`;
  const kept = JSON.parse(localStorage.getItem(key) ?? "");
  build = "data:text/javascript,await globalThis.appIsThere;";
  localStorage.setItem(key, JSON.stringify({ ...kept, build, ...part }));
}

/** The script, as the page reads it. */
async function run(): Promise<void> {
  vi.resetModules();
  await import("./first-frame");
}

async function appComes(): Promise<void> {
  arrived();
  // Its script is evaluated, and what was held is given to it.
  await new Promise((done) => setTimeout(done, 50));
}

beforeEach(() => {
  localStorage.clear();
  localStorage.setItem("evenfall.session", JSON.stringify(SESSION));
  history.replaceState(null, "", "/");
  Object.assign(globalThis, { appIsThere: new Promise<void>((done) => (arrived = done)) });
});

afterEach(async () => {
  await appComes();
  delete document.documentElement.dataset["theme"];
});

describe("what is drawn before the app is there", () => {
  it("is Today as it was kept, in the person's theme", async () => {
    keep();
    localStorage.setItem("evenfall.theme", '"dusk"');
    const place = page();
    await run();
    expect(place.innerHTML).toBe(HTML);
    expect(document.documentElement.dataset["theme"]).toBe("dusk");
  });

  const key = () => `evenfall.frame.${isoDay()}`;
  const AWAY: Record<string, () => void> = {
    "of another person's book": () => keep({ book: bookName("ann", "alder") }),
    "once its person has signed out": () => localStorage.removeItem("evenfall.session"),
    "by another build": () => keep({ build: "data:text/javascript,1" }),
    "in another language": () => keep({ language: "xx" }),
    "by another clock": () => keep({ offset: 12345 }),
    "once a zone to keep off is free": () => keep({ until: Date.now() - 1 }),
    "in another place": () => history.replaceState(null, "", "/log"),
    "that cannot be read": () => localStorage.setItem(key(), "{"),
    "for another day": () => {
      localStorage.setItem("evenfall.frame.2001-01-01", localStorage.getItem(key()) ?? "");
      localStorage.removeItem(key());
    },
  };

  it.each(Object.entries(AWAY))("is nothing %s", async (_, prepare) => {
    keep();
    prepare();
    const place = page();
    await run();
    expect(place.innerHTML).toBe("");
  });
});

describe("a tap before the app is there", () => {
  async function tapped(what: string, change: (control: HTMLElement) => void = () => undefined) {
    keep();
    const place = page();
    await run();
    const control = place.querySelector(what) as HTMLElement;
    const heard = vi.fn((event: Event) => event.preventDefault());
    control.click();
    control.addEventListener("click", heard);
    change(control);
    expect(heard).not.toHaveBeenCalled();
    await vi.waitFor(appComes);
    return heard;
  }

  it.each(["button", "a"])("is given to the app by the same %s, once", async (what) => {
    expect(await tapped(what)).toHaveBeenCalledTimes(1);
  });

  it("goes to nothing else: not to what the button has become, nor to one that is gone", async () => {
    const relabelled = (button: HTMLElement) => button.setAttribute("aria-label", "Mowed: Bank");
    expect(await tapped("button", relabelled)).not.toHaveBeenCalled();
    expect(await tapped("button", (button) => button.remove())).not.toHaveBeenCalled();
  });
});
