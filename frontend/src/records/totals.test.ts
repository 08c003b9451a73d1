import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { createGround } from "../features/ground/model/ground";
import { createShed } from "../features/shed/model/shed";
import { createToday } from "../features/today/model/today";
import type { Table } from "../platform/engine/fake-engine";
import { realEngine } from "../platform/engine/real-engine";
import type { Args } from "../platform/engine/types";
import type { Row } from "../platform/store/types";
import { entryOf, NOTHING_YET, type Totals, totalsEntry, totalsOf } from "./entries";
import { fakeBook, fakeEngine, fakeRow, groups, refuses, settled, wholeBody } from "./fake-book";
import { createTotals } from "./totals";

const TODAY = "2026-05-14";
const mow = (id: string, at: string) => ({
  t: "entry",
  id,
  body: { kind: "mow", occurred_at: at, zone_ids: ["z"] },
});

function places(answer: Table["record.totals"] = {}) {
  const store = fakeBook();
  const engine = fakeEngine({ "record.totals": answer, "record.due": { zones: {} } });
  const parts = { store, engine, day: () => TODAY, system: () => "us" as const, check: () => ({}) };
  const totals = createTotals(parts);
  const shared = { ...parts, now: () => `${TODAY}T18:00:00Z`, memberId: () => "me", totals };
  const seen = [createToday(shared), createGround(shared), createShed(shared)];
  const look = () => seen.map((place) => effect(() => void place.totals.value));
  const calls = () => engine.askedOf("record.totals").length;
  return { store, look, calls };
}

describe("the totals of the log", () => {
  it("are asked once for all places, and again only for a change that can matter", async () => {
    const { store, look, calls } = places();
    store.put(mow("a", "2026-05-01T18:00:00Z"));
    const shut = look();
    await settled();
    expect(calls()).toBe(1);
    for (const stop of shut) stop();
    look();
    await settled();
    expect(calls()).toBe(1);
    store.put(mow("b", "2026-05-08T18:00:00Z"));
    await settled();
    expect(calls()).toBe(2);
    store.put(mow("c", "2025-05-08T18:00:00Z"));
    await settled();
    expect(calls()).toBe(2);
  });

  it("are asked again by the next look after an error", async () => {
    const { look, calls } = places(refuses("not yet"));
    for (const stop of look()) stop();
    await settled();
    look();
    expect(calls()).toBe(2);
  });
});

/** A repeatable stream of numbers from 0 to 1 (mulberry32). */
function stream(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const two = (n: number) => String(n).padStart(2, "0");

/** A book of several years with everything that may stand in it: moved, struck out, other offsets, no nitrogen. */
function anyBook(seed: number, size: number): Row[] {
  const chance = stream(seed);
  const one = <T>(choices: readonly T[]): T => choices[Math.floor(chance() * choices.length)] as T;
  const moment = () =>
    `${one([2024, 2025, 2026])}-${two(1 + Math.floor(chance() * 12))}-${two(1 + Math.floor(chance() * 28))}` +
    `T${two(Math.floor(chance() * 24))}:30:00${one(["Z", "+14:00", "-11:00", "+02:00"])}`;
  return Array.from({ length: size }, (_, k) => {
    const kind = one(["mow", "mow", "mow", "spread", "pass", "observation", "stock_count"]);
    const zone_ids = ["verge", "side", "long"].filter(() => chance() < 0.5);
    const zones = zone_ids.map((zone_id) => ({ zone_id, n_kg_m2: one([null, 0, 0.004]) }));
    const stuff = { product_id: one(["p", "q"]), sort: one(["fertilizer", "seed", undefined]), used_kg: 2 };
    const more = { spread: { ...stuff, zones }, pass: stuff, stock_count: { product_id: "p", left_kg: 20 } };
    const body = wholeBody({ kind, occurred_at: moment(), zone_ids, ...more[kind as keyof typeof more] });
    const over: Record<string, object> = {};
    if (chance() < 0.1) over["void"] = { void: true };
    if (chance() < 0.1) over["when"] = { occurred_at: moment() };
    return fakeRow({ t: "entry", id: `e${k}`, body, groups: groups(over) });
  });
}

/** Answers of the engine itself, on MicroPython as on a phone. */
function engineSays(asks: object[]): Totals[] {
  return asks.map((args) => realEngine("record.totals", args as Args<"record.totals">).value as Totals);
}

describe("leaving out what cannot matter", () => {
  it("changes no figure the phone shows", () => {
    const books = [1, 2, 3, 4, 5, 6].map((seed) => anyBook(seed, 12 * seed * seed).map(entryOf));
    const thinned = books.map((entries) => totalsOf(entries, TODAY));
    const whole = books.map((entries) => ({ entries: entries.map(totalsEntry), today: TODAY }));
    const answers = engineSays([...thinned, ...whole]);
    books.forEach((_, k) => {
      const [thin, full] = [answers[k], answers[k + books.length]];
      expect(thin?.products).toEqual(full?.products);
      for (const zone of ["verge", "side", "long"]) {
        const { passes: _, ...shown } = {
          ...NOTHING_YET,
          ...full?.zones[zone],
        };
        expect({ ...NOTHING_YET, ...thin?.zones[zone] }).toMatchObject(shown);
      }
      expect(thinned[k]?.entries.length).toBeLessThan(whole[k]?.entries.length ?? 0);
    });
  });

  it("asks of years of mowing only for the last days", () => {
    const rows = Array.from({ length: 5000 }, (_, k) => {
      const at = new Date(Date.UTC(2020, 0, 1) + k * 10 * 3_600_000).toISOString();
      return entryOf(fakeRow(mow(`m${k}`, at)));
    });
    expect(totalsOf(rows, TODAY).entries.length).toBeLessThan(5);
  });
});
