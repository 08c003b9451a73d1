import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, groups, settled } from "../../../records/fake-book";
import { createToday } from "./today";

const NOW = "2026-05-14T18:05:00-04:00";

const NOTHING = { last_feed: null, n_year_kg_m2: 0, passes: 0, n_unknown_feeds: 0 };
const mown = (last_mow: string) => ({ ...NOTHING, last_mow });

function book() {
  const store = fakeBook();
  store.put({ t: "zone", id: "a", groups: groups({ name: { name: "Street verge" } }) });
  store.put({
    t: "zone",
    id: "b",
    groups: groups({ name: { name: "Long side" }, cut: { mow_every_days: 7 } }),
  });
  store.put({ t: "zone", id: "c", groups: groups({ name: { name: "Pears" } }) });
  const engine = fakeEngine({
    "record.totals": { zones: { a: mown("2026-05-12"), b: mown("2026-05-01") } },
    "record.due": {
      zones: {
        a: { due_on: "2026-05-15", overdue_days: 0, days_since: 2, assumed: false, state: "ok" },
        b: { due_on: "2026-05-08", overdue_days: 6, days_since: 13, assumed: false, state: "overdue" },
        c: { due_on: null, overdue_days: 0, days_since: null, assumed: true, state: "never" },
      },
    },
  });
  const today = createToday({ store, engine, day: () => "2026-05-14", now: () => NOW, memberId: () => "me" });
  return { store, engine, today };
}

describe("Today", () => {
  it("asks the engine what is due from each zone's last mow and own interval, most overdue first", async () => {
    const { engine, today } = book();
    const stop = effect(() => void today.dueZones.value);
    await settled();
    expect(engine.asked.find((one) => one.name === "record.due")?.args).toEqual({
      zones: [
        { id: "a", last_mow: "2026-05-12" },
        { id: "b", last_mow: "2026-05-01", mow_every_days: 7 },
        { id: "c", last_mow: null },
      ],
      today: "2026-05-14",
    });
    expect(today.dueZones.value.map((zone) => zone.name)).toEqual(["Long side", "Pears", "Street verge"]);
    expect(today.wanting.value.map((zone) => zone.id)).toEqual(["b", "c"]);
    stop();
  });

  it("notes a mow of several zones as one entry by this member, with nothing filled in", async () => {
    const { store, today } = book();
    await today.mow(["a", "b"]);
    expect(store.saved[0]?.[0]?.body).toEqual({
      kind: "mow",
      occurred_at: NOW,
      by: "me",
      zone_ids: ["a", "b"],
    });
    expect(store.saved[0]?.[0]?.set).toBeUndefined();
  });

  it("keeps the details a person gave and the note beside them", async () => {
    const { store, today } = book();
    const facts = { cut_height_mm: 75, height_before_mm: 110, clippings: "left" };
    await today.add({ kind: "mow", facts, zoneIds: ["a"], note: "damp" });
    expect(store.saved[0]?.[0]).toMatchObject({
      body: { cut_height_mm: 75, height_before_mm: 110, clippings: "left" },
      set: { note: { note: "damp" } },
    });
  });

  it("undoes an unsent mow without a trace", async () => {
    const { store, today } = book();
    const noted = await today.mow(["a"]);
    await noted.back();
    expect(store.rows("entry").value).toEqual([]);
    expect(store.saved).toHaveLength(1);
  });

  it("strikes a mow out when it has already been sent", async () => {
    const { store, today } = book();
    const noted = await today.mow(["a"]);
    store.sent.add(noted.op);
    await noted.back();
    expect(store.row("entry", noted.id).value?.groups["void"]?.value).toMatchObject({ void: true, by: "me" });
  });
});
