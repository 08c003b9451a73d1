/** A stretch too small to measure, from the job through the book to the next start, with the engine that a phone runs. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../platform/engine/real-engine";
import type { Args } from "../../../platform/engine/types";
import { DIAL, passEntry } from "../../../records/fake-passes";
import { historyOf } from "../../../records/pass-history";
import { checkedAt, count, engine, form, kg, left, passBodies, shelf, striped } from "./fake-spreading";

/** A box that holds 8 kg: its level is read as easily as written down. */
const BOX = {
  top_length_m: 0.4,
  top_width_m: 0.2,
  bottom_length_m: 0.4,
  bottom_width_m: 0.2,
  height_m: 0.125,
};

function closing({ level, ...args }: Args<"spread.close_pass">) {
  const boxed = level && { ...BOX, level_share: level.level_share, bulk_density_kg_m3: 800 };
  return realEngine("spread.close_pass", boxed ? { ...args, level: boxed } : args);
}

const real = () => engine({ "spread.close_pass": closing });
const PRODUCT = { id: "slow", bulk_density_kg_m3: 750, granules: "medium" };
const good = [6.5, 7, 7].map((dial, k) =>
  passEntry(`g${k}`, `2026-04-0${k + 1}T10:00:00Z`, { dial, used_kg: 2, left_kg: 2, spread_id: `g${k}` }),
);

/** Five strips at 6, a look by level that says 6 kg, the rest at the setting given, and 6.2 kg on the scale at the end. */
async function walked(dial: number) {
  const store = shelf();
  const spreading = await striped(store, real());
  await count(spreading, 5);
  await spreading.openCheck();
  await spreading.change(form(spreading, { way: "level", level_share: 0.75 }));
  expect(await spreading.decide(dial)).toBe(true);
  await spreading.go("left");
  await spreading.change(left(spreading.draft.value, { way: "scale", weight: kg("6.2"), whole: true }));
  expect(await spreading.record()).toBe(true);
  return passBodies(store)[0];
}

function startAfter(bodies: any[]) {
  const entries = [...good, ...bodies.map((body, k) => passEntry(`n${k}`, "2026-05-14T18:05:00Z", body))];
  const history = historyOf("rotary", DIAL, entries);
  const args = { dial: DIAL, product: PRODUCT, target_kg_m2: 0.02, area_m2: 200, history };
  const { value, error } = realEngine("spreading.start", args);
  if (error) throw new Error(error.message);
  return value;
}

describe("a stretch too small to measure", () => {
  it.each([9, 16])("at %s opens no next start wider, and stops none", async (dial) => {
    const body = await walked(dial);
    expect(body.parts.at(-1)).toMatchObject({ dial, used_kg: 0, measured: "scale", left_kg: 6.2 });
    const [first, after] = [startAfter([]), startAfter([body])];
    expect(after.advice).toBe("walk");
    expect(after.dial).toBeLessThanOrEqual(Math.max(first.dial, 9));
    expect(after.left_out).toEqual([{ index: 4, why: "unmeasured" }]);
  });

  it("is one where the person says that nothing came", async () => {
    const parts = [
      { dial: 6, area_m2: 60, used_kg: 4, measured: "level", left_kg: 6 },
      { dial: 9, area_m2: 140, used_kg: 0, measured: "scale", left_kg: 6 },
    ];
    const after = startAfter([{ parts, nothing_came: true, used_kg: 4, left_kg: 6 }]);
    expect(after.left_out).toEqual([]);
    expect(after.advice === "stop" || after.dial > 9).toBe(true);
  });

  it("lets the second look on the scale say more than the first by level", async () => {
    const spreading = await striped(shelf(), real());
    await count(spreading, 5);
    await spreading.openCheck();
    await spreading.change(form(spreading, { way: "level", level_share: 0.75 }));
    await spreading.decide(5.5);
    await count(spreading, 1);
    expect(await checkedAt(spreading, "6.2", 5.5)).toBe(true);
    expect(spreading.draft.value?.pass?.checks.map(({ now_kg }) => Number(now_kg.toFixed(9)))).toEqual([
      6, 6.2,
    ]);
  });
});
