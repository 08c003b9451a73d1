import { computed, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Store } from "../../../platform/store/types";
import { entryOf } from "../../../records/entries";
import { fakeBook, fakeRow, groups } from "../../../records/fake-book";
import { createWriting } from "../../../records/log/writing";
import { byDay, createLog, historyOf } from "./log";

const NOW = "2026-05-14T18:05:00-04:00";

function log() {
  const store = fakeBook();
  store.put({ t: "zone", id: "z", groups: groups({ name: { name: "Street verge" } }) });
  store.put({
    t: "entry",
    id: "1",
    body: { kind: "mow", occurred_at: "2026-05-10T18:00:00-04:00", by: "me", zone_ids: ["z"] },
  });
  store.put({
    t: "entry",
    id: "2",
    body: {
      kind: "spread",
      occurred_at: "2026-05-10T19:00:00-04:00",
      by: "you",
      zone_ids: ["z"],
      product_id: "p",
    },
  });
  store.put({
    t: "entry",
    id: "3",
    body: { kind: "mow", occurred_at: "2026-05-12T07:00:00-04:00", by: "you", zone_ids: [] },
  });
  const model = createLog({ store, now: () => NOW, memberId: () => "me" });
  const entry = (id: string) =>
    model.entries.value.find((one) => one.id === id) ?? expect.fail(`no entry ${id}`);
  return { store, model, entry };
}

const observe = (store: Store, text: string, zoneIds: string[]) =>
  createWriting({ store, now: () => NOW, memberId: () => "me" }).add({
    kind: "observation",
    facts: { text },
    zoneIds,
  });

const ids = (days: { day: string; entries: { id: string }[] }[]) =>
  days.map(({ day, entries }) => [day, entries.map((one) => one.id)]);

describe("the log", () => {
  it("groups entries by the day at the place, newest first", () => {
    expect(ids(log().model.days.value)).toEqual([
      ["2026-05-12", ["3"]],
      ["2026-05-10", ["2", "1"]],
    ]);
  });

  it("keeps one order on every phone for entries of the same moment", () => {
    const at = (id: string) => entryOf(fakeRow({ t: "entry", id, body: { kind: "mow", occurred_at: NOW } }));
    expect(ids(byDay([at("a"), at("b")]))).toEqual(ids(byDay([at("b"), at("a")])));
  });

  it.each([
    ["kind", "mow", ["3", "1"]],
    ["zone", "z", ["2", "1"]],
    ["product", "p", ["2"]],
    ["person", "you", ["3", "2"]],
  ])("filters by %s", (name, value, found) => {
    const { model } = log();
    model.filters.value = { ...model.filters.value, [name]: value };
    expect(model.days.value.flatMap((day) => day.entries.map((one) => one.id))).toEqual(found);
  });

  it("shows passes with their walk, in the list only when asked for or when the walk is not finished", () => {
    const { store, model } = log();
    const pass = (id: string, spread_id: string, number: number) =>
      store.put({
        t: "entry",
        id,
        body: { kind: "pass", spread_id, number, occurred_at: "2026-05-10T18:30:00-04:00" },
      });
    pass("second", "2", 2);
    pass("first", "2", 1);
    pass("loose", "unfinished", 1);
    const shown = () => model.days.value.flatMap((day) => day.entries.map((one) => one.id));
    expect(shown()).toEqual(["3", "2", "loose", "1"]);
    expect(model.partsOf("2").value.map((one) => one.id)).toEqual(["first", "second"]);
    model.filters.value = { ...model.filters.value, kind: "pass" };
    expect(shown().sort()).toEqual(["first", "loose", "second"]);
  });

  it("moves an entry and keeps every moment it stood at", async () => {
    const { model, entry } = log();
    await model.setWhen(entry("1"), "2026-05-11T08:00:00-04:00");
    await model.setWhen(entry("1"), "2026-05-09T08:00:00-04:00");
    expect(entry("1").at).toBe("2026-05-09T08:00:00-04:00");
    expect(historyOf(entry("1")).map((line) => [line.what, line.value])).toEqual([
      ["Logged for", "2026-05-10T18:00:00-04:00"],
      ["Moved to (earlier)", "2026-05-11T08:00:00-04:00"],
      ["Moved to", "2026-05-09T08:00:00-04:00"],
    ]);
  });

  it("says who changed a note and when, and keeps the earlier wording", async () => {
    const { model, entry } = log();
    await model.setNote(entry("1"), "dry");
    await model.setNote(entry("1"), "dry, dusty");
    const notes = historyOf(entry("1")).filter((line) => line.what.startsWith("Note"));
    expect(notes).toEqual([
      { what: "Note (earlier)", value: "dry", by: "me", at: NOW },
      { what: "Note", value: "dry, dusty", by: "me", at: NOW },
    ]);
  });

  it("strikes out and puts back without losing the reason", async () => {
    const { model, entry } = log();
    await model.strike(entry("1"), "wrong zone");
    expect(entry("1").struck).toBe(true);
    expect(historyOf(entry("1")).at(-1)).toMatchObject({
      what: "Crossed out",
      value: "wrong zone",
      by: "me",
    });
    await model.putBack(entry("1"));
    expect(entry("1").struck).toBe(false);
    expect(historyOf(entry("1")).map((line) => line.what)).toContain("Crossed out (earlier)");
    expect(historyOf(entry("1")).map((line) => line.value)).toContain("wrong zone");
  });

  it("adds an observation as an entry of its own", async () => {
    const { store } = log();
    await observe(store, "dollar-sized brown spots", ["z"]);
    expect(store.saved.map(([one]) => one?.body)).toEqual([
      { kind: "observation", occurred_at: NOW, by: "me", text: "dollar-sized brown spots", zone_ids: ["z"] },
    ]);
  });

  it("lists what waits to be sent, but not what was struck out", async () => {
    const { store, model } = log();
    await observe(store, "rust", ["a"]);
    await observe(store, "moss", ["b"]);
    const struck = () => model.waiting.value.find(({ zoneIds }) => zoneIds[0] === "b");
    await model.strike(struck() as never, "");
    expect(
      model.waiting.value
        .filter(({ id }) => store.row("entry", id).value?.pending)
        .map(({ zoneIds }) => zoneIds),
    ).toContainEqual(["a"]);
    expect(struck()).toBeUndefined();
  });
});

describe("the log before all of it is read", () => {
  const mow = (id: string, day: string) =>
    fakeRow({ t: "entry", id, body: { kind: "mow", occurred_at: `${day}T18:00:00-04:00`, zone_ids: ["z"] } });
  const pass = fakeRow({
    t: "entry",
    id: "p",
    body: { kind: "pass", occurred_at: "2026-05-12T09:00:00-04:00", spread_id: "s", zone_ids: ["z"] },
  });

  function opening() {
    const loaded: Record<string, ReturnType<typeof signal<boolean>>> = {};
    const of = (t: string) => (loaded[t] ??= signal(false));
    const newest = signal([mow("4", "2026-05-13"), pass, mow("3", "2026-05-12"), mow("2", "2026-05-11")]);
    const all = [...newest.value, mow("1", "2026-05-10")];
    const rows = (t: string) => computed(() => (t === "entry" && of(t).value ? all : []));
    const store = { ...fakeBook(), newest, loaded: of, rows } as unknown as Store;
    const model = createLog({ store, now: () => NOW, memberId: () => "me" });
    return { of, model };
  }

  it("shows its newest whole days once their names are known, without parts whose whole may be on this phone", () => {
    const { of, model } = opening();
    expect([model.days.value, model.latest.value]).toEqual([[], []]);
    for (const t of ["zone", "product", "spreader", "mower", "member"]) of(t).value = true;
    expect(ids(model.days.value)).toEqual([["2026-05-13", ["4"]]]);
    expect(model.latest.value.map(({ id }) => id)).toEqual(["4", "p", "3"]);
  });

  it("is shown whole from then on", () => {
    const { of, model } = opening();
    of("entry").value = true;
    expect(model.days.value.map(({ day }) => day)).toEqual([
      "2026-05-13",
      "2026-05-12",
      "2026-05-11",
      "2026-05-10",
    ]);
  });
});
