import { render } from "preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { dayAfter, isoDay } from "../format";
import { startSession } from "../platform/session/session";
import { bookName, closeBook } from "../platform/store";
import { forgetLook, keepLook, keptLook } from "../platform/store/looks";
import type { Look } from "../records/look";
import { App } from "./app";
import { drawFrame, writeFrames } from "./frames";

const BOOK = bookName("sam", "alder");
const PERSON = { id: "sam", name: "Sam Example", email: "sam@example.com" };
const HOUSEHOLD = { id: "alder", name: "Alder Bend" };
const SESSION = {
  person: PERSON,
  household: HOUSEHOLD,
  member_id: "me",
  role: "keeper",
  households: [HOUSEHOLD],
};
const TODAY = isoDay();

const due = (state: "due" | "ok") => [
  { id: "z", name: "Verge <b>", due_on: TODAY, overdue_days: 0, state, lastMow: null },
];

function look(keptOffUntil?: string): Look {
  const z = {
    until: keptOffUntil,
    hours: 24,
    assumed: false,
    until_watered: false,
    product_id: "p",
    entry_id: "w",
  };
  return {
    at: `${TODAY}T06:00:00Z`,
    days: { [dayAfter(TODAY, -1)]: due("ok"), [TODAY]: due("due"), [dayAfter(TODAY, 1)]: due("ok") },
    keptOff: keptOffUntil ? { z } : {},
    names: { z: "Verge" },
    has: { zones: true, products: true, spreaders: true },
    taken: [],
  } as unknown as Look;
}

const frames = () => Object.keys(localStorage).filter((key) => key.startsWith("evenfall.frame."));
const write = () => writeFrames(keptLook.value as never, async () => (day) => `drawn ${day}`);

beforeEach(() => {
  localStorage.clear();
  localStorage.setItem("evenfall.session", JSON.stringify({ session: SESSION, at: 1 }));
});

afterEach(() => {
  closeBook();
  document.body.innerHTML = "";
});

describe("Today drawn in advance", () => {
  it("is what the app draws first, tag for tag, and stays its own elements", () => {
    keepLook(BOOK, look());
    const scrolled = vi.spyOn(window, "scrollTo");
    document.title = "Log · Evenfall";
    const ahead = drawFrame(TODAY);
    expect(ahead).toContain("Mowed the whole yard");
    expect(ahead).toContain("as of");
    expect(scrolled).not.toHaveBeenCalled();
    expect(document.title).toBe("Log · Evenfall");
    startSession();
    const place = document.body.appendChild(document.createElement("div"));
    place.innerHTML = ahead;
    const before = [...place.querySelectorAll("main, h1, button, a, li")];
    render(<App />, place);
    expect(place.innerHTML).toBe(ahead);
    expect([...place.querySelectorAll("main, h1, button, a, li")]).toEqual(before);
    render(null, place);
  });

  it("is drawn for the day it is kept for", () => {
    keepLook(BOOK, look());
    expect(drawFrame(TODAY)).toContain("Due today");
    expect(drawFrame(dayAfter(TODAY, 1))).not.toContain("Due today");
  });

  it("is there for today and each day to come, until a write makes it old", async () => {
    keepLook(BOOK, look());
    await write();
    expect(frames().sort()).toEqual([TODAY, dayAfter(TODAY, 1)].map((day) => `evenfall.frame.${day}`));
    forgetLook();
    expect(frames()).toEqual([]);
  });

  it("is not kept where a write came while it was drawn", async () => {
    keepLook(BOOK, look());
    const mine = keptLook.value as never;
    await writeFrames(mine, async () => {
      forgetLook();
      return (day) => day;
    });
    expect(frames()).toEqual([]);
  });

  it("is not drawn for a day on which what it says of keeping off is over", async () => {
    const soon = new Date(Date.parse(`${dayAfter(TODAY, 1)}T00:00`) - 1).toISOString();
    keepLook(BOOK, look(soon));
    await write();
    expect(frames()).toEqual([`evenfall.frame.${TODAY}`]);
    expect(JSON.parse(localStorage.getItem(`evenfall.frame.${TODAY}`) ?? "").until).toBe(Date.parse(soon));
  });
});
