import { effect } from "@preact/signals";
import { afterEach, describe, expect, it } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import type { AnswerTo, Args, CallName } from "../../../platform/engine/types";
import { fakeBook, groups, settled } from "../../../records/fake-book";
import { createClaims } from "./claims";

const TODAY = "2026-05-14";
const NOW = `${TODAY}T18:05:00+02:00`;

const engine = {
  call: async <N extends CallName>(name: N, args: Args<N>): Promise<AnswerTo<N>> => realEngine(name, args),
};
let unwatch = () => {};
afterEach(() => unwatch());

function open() {
  const store = fakeBook();
  const model = createClaims({ store, engine, day: () => TODAY, now: () => NOW, memberId: () => "me" });
  unwatch = effect(() => void model.claims.value);
  const put = (id: string, claim: object, by: string | undefined = "rowan") =>
    store.put({ t: "claim", id, ...(by ? { by } : {}), groups: groups({ claim }) });
  const mow = (id: string, zone_ids: string[], at = NOW, more: object = {}) =>
    store.put({ t: "entry", id, body: { kind: "mow", occurred_at: at, zone_ids }, ...more });
  return { store, model, put, mow };
}

describe("S4 what members say they will do", () => {
  it("shows claims from yesterday to a week ahead, the nearest first", async () => {
    const { model, put } = open();
    put("far", { job: "mow", day: "2026-05-22" });
    put("week", { job: "mow", day: "2026-05-21" });
    put("now", { job: "mow", day: TODAY });
    put("yesterday", { job: "mow", day: "2026-05-13" });
    put("old", { job: "mow", day: "2026-05-12" });
    await settled();
    expect(model.claims.value.map(({ id }) => id)).toEqual(["yesterday", "now", "week"]);
  });

  it("knows its own, also before the server has said whose it is", async () => {
    const { model, put } = open();
    put("theirs", { job: "mow", day: TODAY });
    put("sent", { job: "mow", day: TODAY }, "me");
    const made = await model.claim({ job: "mow", zoneIds: ["z"] });
    await settled();
    expect(new Map(model.claims.value.map(({ id, mine }) => [id, mine]))).toEqual(
      new Map([
        ["theirs", false],
        ["sent", true],
        [made.id, true],
      ]),
    );
  });

  it("is made for today where no day is given, and says nothing that was not said", async () => {
    const { store, model } = open();
    await model.claim({ job: "water" });
    expect(store.saved[0]?.[0]?.set).toEqual({ claim: { job: "water", day: TODAY, zone_ids: [] } });
  });

  it("is done once mows of its day cover its zones, whoever mowed", async () => {
    const { model, put, mow } = open();
    put("c", { job: "mow", day: TODAY, zone_ids: ["a", "b"] });
    mow("m1", ["a"]);
    mow("before", ["b"], "2026-05-13T18:00:00+02:00");
    await settled();
    expect(model.open.value).toHaveLength(1);
    mow("struck", ["b"], NOW, { groups: groups({ void: { void: true } }) });
    await settled();
    expect(model.open.value).toHaveLength(1);
    mow("m2", ["b"]);
    await settled();
    expect(model.open.value).toEqual([]);
  });

  it("tells spraying from feeding by the sort of product", async () => {
    const { store, model, put } = open();
    put("feed", { job: "feed", day: TODAY, zone_ids: ["a"] });
    put("spray", { job: "spray", day: TODAY, zone_ids: ["a"] });
    store.put({
      t: "entry",
      id: "w",
      body: { kind: "spread", occurred_at: NOW, zone_ids: ["a"], sort: "pre_emergent" },
    });
    await settled();
    expect(model.open.value.map(({ id }) => id)).toEqual(["feed"]);
  });

  it("takes the whole yard for done only once every zone is", async () => {
    const { store, model, put, mow } = open();
    store.put({ t: "zone", id: "a" });
    store.put({ t: "zone", id: "b" });
    put("all", { job: "mow", day: TODAY });
    mow("m1", ["a"]);
    await settled();
    expect(model.open.value.map(({ id }) => id)).toEqual(["all"]);
    await settled();
    expect(model.onZone("b", "mow")?.id).toBe("all");
    mow("m2", ["b"]);
    await settled();
    expect(model.open.value).toEqual([]);
  });

  it("takes neither lime nor seed for a feed, nor another product without nitrogen", async () => {
    const { store, model, put } = open();
    put("feed", { job: "feed", day: TODAY, zone_ids: ["a"] });
    const put_down = (id: string, more: object) =>
      store.put({ t: "entry", id, body: { kind: "spread", occurred_at: NOW, zone_ids: ["a"], ...more } });
    for (const sort of ["lime", "seed", "pre_emergent", "post_emergent", "other"]) put_down(sort, { sort });
    await settled();
    expect(model.open.value.map(({ id }) => id)).toEqual(["feed"]);
    put_down("humus", { sort: "other", n_percent: 3 });
    await settled();
    expect(model.open.value).toEqual([]);
  });

  it("does not take a zone for fed that got nothing", async () => {
    const { store, model, put } = open();
    put("feed", { job: "feed", day: TODAY, zone_ids: ["a", "b"] });
    const zones = [
      { zone_id: "a", used_kg: 5 },
      { zone_id: "b", used_kg: 0 },
    ];
    const body = { kind: "spread", occurred_at: NOW, zone_ids: ["a", "b"], sort: "fertilizer", zones };
    store.put({ t: "entry", id: "w", body });
    await settled();
    expect(model.open.value.map(({ id }) => id)).toEqual(["feed"]);
  });

  it("stands beside its zones today; one without zones beside all", async () => {
    const { model, put } = open();
    put("tomorrow", { job: "mow", day: "2026-05-15", zone_ids: ["a"] });
    await settled();
    expect(model.onZone("a", "mow")).toBeUndefined();
    put("now", { job: "mow", day: TODAY, zone_ids: ["a"] });
    await settled();
    expect(model.onZone("a", "mow")?.id).toBe("now");
    await settled();
    expect(model.onZone("b", "mow")).toBeUndefined();
    put("all", { job: "mow", day: TODAY });
    await settled();
    expect(model.onZone("b", "mow")?.id).toBe("all");
  });

  it("writes a mow of all its ground when done, and what has no entry of its own in words", async () => {
    const { store, model } = open();
    store.put({ t: "zone", id: "a" });
    store.put({ t: "zone", id: "b" });
    const mowing = await model.claim({ job: "mow" });
    await settled();
    const claim = model.claims.value.find(({ id }) => id === mowing.id);
    if (claim) await model.done(claim);
    expect(store.saved.at(-1)?.[0]?.body).toMatchObject({ kind: "mow", by: "me", zone_ids: ["a", "b"] });
    const watering = await model.claim({ job: "water", zoneIds: ["a"] });
    await settled();
    const other = model.claims.value.find(({ id }) => id === watering.id);
    if (other) await model.done(other);
    expect(store.saved.at(-1)?.[0]?.body).toMatchObject({ kind: "observation", text: "Watered." });
    await settled();
    expect(model.open.value).toEqual([]);
  });

  it("is given up, taken back and kept after all, sent or not", async () => {
    const { store, model } = open();
    const made = await model.claim({ job: "mow" });
    await made.back();
    await settled();
    expect(model.claims.value).toEqual([]);
    const second = await model.claim({ job: "mow" });
    store.sent.add(second.op);
    const gone = await model.giveUp(second);
    await settled();
    expect(model.claims.value).toEqual([]);
    store.sent.add(gone.op);
    await gone.back();
    await settled();
    expect(model.claims.value.map(({ id }) => id)).toEqual([second.id]);
    await second.back();
    await settled();
    expect(model.claims.value).toEqual([]);
  });
});
