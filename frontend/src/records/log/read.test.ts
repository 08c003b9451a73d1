import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { isAhead, isWithin } from "../entries";
import { fakeBook, groups, wholeBody } from "../fake-book";
import { restful } from "../rest";
import { entriesIn, entryIn, standingIn } from "./read";

const entry = (id: string, kind: string, more: object = {}) => ({
  t: "entry",
  id,
  body: wholeBody({ kind, zone_ids: ["z"] }),
  ...more,
});

function open() {
  const store = fakeBook();
  store.put(entry("a", "mow"));
  store.put(entry("b", "reading"));
  store.put(entry("c", "mow", { groups: groups({ void: { void: true } }) }));
  return store;
}

describe("the log, read once for all who ask", () => {
  it("is the same list for whoever asks, through a store that only saves in another way too", () => {
    const store = open();
    expect(entriesIn(restful(store)).value).toBe(entriesIn(store).value);
    expect(entriesIn(fakeBook()).value).toEqual([]);
  });

  it("has what stands by its kind, and crossed out ones only among all", () => {
    const store = open();
    expect(entriesIn(store).value.map(({ id }) => id)).toEqual(["a", "b", "c"]);
    expect(standingIn(store, "mow").map(({ id }) => id)).toEqual(["a"]);
    expect(standingIn(store, "reading").map(({ id }) => id)).toEqual(["b"]);
    expect(standingIn(store, "spread")).toEqual([]);
  });

  it("finds an entry by its id, crossed out or not, and follows the log", () => {
    const store = open();
    const seen: (string | undefined)[] = [];
    const stop = effect(() => void seen.push(entryIn(store, "d")?.kind));
    store.put(entry("d", "note"));
    stop();
    expect(seen).toEqual([undefined, "note"]);
    expect(entryIn(store, "c")?.struck).toBe(true);
    expect(entryIn(store, undefined)).toBeUndefined();
  });
});

describe("how far back, and whether ahead", () => {
  const at = (occurred_at: string) => {
    const store = fakeBook();
    store.put({ t: "entry", id: "a", body: { ...wholeBody({ kind: "mow", zone_ids: ["z"] }), occurred_at } });
    const found = entryIn(store, "a");
    if (!found) throw new Error("not there");
    return found;
  };

  it.each([
    ["2026-05-10T23:59:00+14:00", true],
    ["2026-05-10T00:01:00-12:00", true],
    ["2026-05-08T00:00:00+14:00", true],
    ["2026-05-07T23:59:00-12:00", false],
    ["2016-05-10T10:00:00Z", false],
    ["2026-05-12T10:00:00+02:00", true],
  ])("counts %s by its own calendar as of the last two days: %s", (moment, is) => {
    expect(isWithin(at(moment), "2026-05-10", 2)).toBe(is);
  });

  it.each([
    ["2026-05-10T10:00:00+02:00", false],
    ["2026-05-11T23:00:00+02:00", false],
    ["2026-05-12T00:01:00+14:00", true],
    ["2027-01-01T00:00:00-12:00", true],
    ["2025-12-31T00:00:00-12:00", false],
  ])("has %s ahead of 10 May: %s", (moment, is) => {
    expect(isAhead(at(moment), "2026-05-10")).toBe(is);
    expect(isAhead(at(moment), "2026-05-10T08:00:00+02:00")).toBe(is);
  });
});
