/** The strip at water stays clear, and the load leaves it out (A15). */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { groups } from "../../../../records/fake-book";
import type { Spreader } from "../../../../records/products";
import { chosen, engine, shelf } from "../fake-spreading";
import { setbackArgs } from "./setback";

const FEET_25 = 7.62;

async function walkAt(site: object, walking: object = {}, ground: object = { area_m2: 80 }) {
  const store = shelf();
  store.put({
    t: "zone",
    id: "long",
    groups: groups({ name: { name: "Long" }, ground, site }),
  });
  const spreader = store.rows("spreader").peek()[0];
  store.put({
    t: "spreader",
    id: "rotary",
    groups: groups({
      ...Object.fromEntries(
        Object.entries(spreader?.groups ?? {}).map(([name, held]) => [name, held?.value ?? {}]),
      ),
      walking: { swath_m: 1.5, speed_m_s: 1.3, ...walking },
    }),
  });
  const answers = engine({ "limits.setback": (args) => realEngine("limits.setback", args) });
  const spreading = await chosen(store, answers);
  const stop = spreading.choice.subscribe(() => undefined);
  await expect.poll(() => spreading.choice.value.area_m2).toBeGreaterThan(0);
  stop();
  return { spreading, answers };
}

const areas = (spreading: Awaited<ReturnType<typeof chosen>>) =>
  spreading.choice.value.zones.map(({ id, area_m2 }) => [id, Number(area_m2.toFixed(6))]);

describe("a zone at water", () => {
  it("is walked without the strip that stays clear: 25 ft where nothing else was entered", async () => {
    const { spreading } = await walkAt({ near_water: true, water_edge_m: 5 });
    expect(areas(spreading)).toEqual([
      ["verge", 120],
      ["long", Number((80 - 5 * FEET_25).toFixed(6))],
    ]);
    expect(spreading.choice.value.area_m2).toBeCloseTo(200 - 5 * FEET_25, 9);
    expect(spreading.setback.value?.value?.setback_m).toBe(FEET_25);
  });

  it("is walked without all that lies nearer to its marked edges, and its strips stay out of it", async () => {
    const outline = { points_m: [[0, 0], [10, 0], [10, 8], [0, 8]], holes_m: [], circles_m: [] }; // biome-ignore format: corners
    const ground = { area_m2: 80, outline, water_edges: [0] };
    const { spreading } = await walkAt({ near_water: true, water_edge_m: 500, setback_m: 3 }, {}, ground);
    expect(spreading.choice.value.area_m2).toBeCloseTo(170, 3);
    expect(spreading.choice.value.zones.at(-1)).toMatchObject({ clear_m: 3, water_edges: [0] });
    const dry = await walkAt({ near_water: false, setback_m: 3 }, {}, ground);
    expect(dry.spreading.choice.value.area_m2).toBe(200);
    expect(dry.spreading.choice.value.zones.at(-1)).not.toHaveProperty("clear_m");
  });

  it("stays back as far as its label or local rule says", async () => {
    const { spreading } = await walkAt({ near_water: true, water_edge_m: 5, setback_m: 3 });
    expect(spreading.choice.value.area_m2).toBeCloseTo(185, 9);
  });

  it("goes no nearer with a deflector while the place is not known", async () => {
    const { spreading } = await walkAt({ near_water: true, water_edge_m: 5 }, { deflector: true });
    expect(spreading.setback.value?.value?.setback_m).toBe(FEET_25);
  });

  it("that lies wholly in its setback is not walked", async () => {
    const { spreading } = await walkAt({ near_water: true, water_edge_m: 500 });
    expect(areas(spreading)).toEqual([["verge", 120]]);
  });

  it("leaves nothing out while the length of its edge is not known, or no water is there", async () => {
    for (const site of [{ near_water: true }, { near_water: false, water_edge_m: 5, setback_m: 3 }]) {
      const { spreading } = await walkAt(site);
      expect(spreading.choice.value.area_m2).toBe(200);
    }
  });

  it("has no area to load for while the engine has not said what stays clear", async () => {
    const store = shelf();
    const site = { near_water: true, water_edge_m: 5 };
    store.put({ t: "zone", id: "long", groups: groups({ ground: { area_m2: 80 }, site }) });
    const spreading = await chosen(
      store,
      engine({ "limits.setback": () => ({ error: { code: "engine_too_long", message: "x" } }) }),
    );
    expect(spreading.choice.value.area_m2).toBe(0);
  });
});

describe("limits.setback", () => {
  const zone = { id: "z", name: "Z", area_m2: 9, near_water: true };
  it("is told of a drop spreader and of a deflector, and asked only where there is water", () => {
    const guarded = (spreader?: object) => setbackArgs([zone], spreader as Spreader | undefined);
    expect(guarded({ sort: "drop" })).toMatchObject({ guarded: true });
    expect(guarded({ sort: "rotary", deflector: true })).toMatchObject({ guarded: true });
    expect(guarded({ sort: "rotary" })).toMatchObject({ guarded: false });
    expect(setbackArgs([{ ...zone, near_water: false }], undefined)).toBeNull();
  });
});
