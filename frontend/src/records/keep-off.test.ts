import { describe, expect, it } from "vitest";
import { fakeBook, fakeEngine, groups, settled } from "./fake-book";
import { createKeepOff } from "./keep-off";

const NOW = "2026-05-02T10:00:00+02:00";
const KEPT = {
  until: "2026-05-02T16:30:00Z",
  put_down_at: "2026-05-01T18:30:00+02:00",
  hours: 24,
  assumed: false,
  until_watered: true,
  product_id: "slow",
  entry_id: "w",
};

function open() {
  const store = fakeBook();
  const engine = fakeEngine({ "record.keep_off": { zones: { z: KEPT }, over_in_s: 30_600 } });
  const caution = { keep_off_hours: 24, water_in: "water_in" };
  store.put({
    t: "product",
    id: "slow",
    groups: groups({ name: { name: "Slow", sort: "fertilizer" }, caution }),
  });
  const enter = (id: string, body: object, more: object = {}) => store.put({ t: "entry", id, body, ...more });
  return { store, engine, enter, model: createKeepOff({ store, engine, now: () => NOW }) };
}

const spreading = (occurred_at: string) => ({
  kind: "spread",
  occurred_at,
  product_id: "slow",
  sort: "fertilizer",
  used_kg: 4,
  zone_ids: ["z"],
  zones: [{ zone_id: "z", n_kg_m2: 0.005 }],
});

describe("zones to keep off", () => {
  it("asks the engine with what was put down lately, by whomever, and what the labels say", async () => {
    const { enter, engine, model } = open();
    enter("w", spreading("2026-05-01T18:30:00+02:00"), { by: "rowan" });
    enter("p", { ...spreading("2026-05-01T18:00:00+02:00"), kind: "pass" });
    enter("old", spreading("2026-03-01T18:30:00+02:00"));
    enter("m", { kind: "mow", occurred_at: NOW, zone_ids: ["z"] });
    const stop = model.zones.subscribe(() => {});
    await settled();
    const args = engine.askedOf("record.keep_off").at(-1);
    expect(args).toMatchObject({
      now: NOW,
      products: [{ id: "slow", keep_off_hours: 24, water_in: "water_in" }],
    });
    expect(args?.entries.map(({ id }) => id).sort()).toEqual(["p", "w"]);
    expect(model.zones.value["z"]).toEqual(KEPT);
    stop();
  });

  it("looks again when told that one is over", async () => {
    const { engine, model } = open();
    const stop = model.zones.subscribe(() => {});
    await settled();
    const before = engine.asked.length;
    model.look();
    await settled();
    // The same moment here: nothing new to ask.
    expect(engine.asked.length).toBeGreaterThanOrEqual(before);
    stop();
  });

  it("leaves out what is struck out", async () => {
    const { enter, engine, model } = open();
    enter("w", spreading("2026-05-01T18:30:00+02:00"), { groups: groups({ void: { void: true } }) });
    const stop = model.zones.subscribe(() => {});
    await settled();
    expect(engine.askedOf("record.keep_off").at(-1)?.entries).toEqual([]);
    stop();
  });
});
