/** The sums of a job: asked of the engine, and the stand-in of the other tests held to its answers. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../records/real-engine";
import {
  checkedAt,
  closes,
  count,
  engine,
  passBodies,
  pours,
  shelf,
  stands,
  striped,
  weighed,
} from "./fake-spreading";

/** A job of two settings in its first pass, with what each step asked the engine. */
async function walked() {
  const store = shelf();
  const answers = engine();
  const spreading = await striped(store, answers);
  await count(spreading, 5);
  await checkedAt(spreading, "8", 5.5);
  await count(spreading, 6);
  await weighed(spreading, "5.5");
  await spreading.walkOn();
  await weighed(spreading, "1");
  await spreading.finish();
  const asked = (name: string) => answers.asked.filter((one) => one.name === name).map(({ args }) => args);
  return { store, spreading, asked };
}

const FAKES = { "spread.standing": stands, "spread.close_pass": closes, "spread.pour": pours } as const;

describe("the sums of a job", () => {
  it("are all the engine's: no balance is bent to add two numbers", async () => {
    const { asked, store } = await walked();
    expect(asked("spreading.used")).toEqual([]);
    expect(asked("spreading.split")).toEqual([]);
    expect(asked("spread.close_pass").map(({ goes_on = false }) => goes_on)).toEqual([true, false, false]);
    expect(asked("spread.finish").at(-1)).toMatchObject({ plan: { load_kg: 10, target_kg: 10, passes: 2 } });
    expect(passBodies(store).map(({ used_kg }) => used_kg)).toEqual([4.5, 4.5]);
  });

  it("come out the same from the tests' stand-in and from the engine", async () => {
    const { asked } = await walked();
    const pass = { plan: { load_kg: 6, target_kg: 10, passes: 2 }, passes: [] };
    const on_foot = { added_kg: 1, there_kg: 7, base_kg: 6.5 };
    const pouring = [{ added_kg: 2 }, { added_kg: 5 }, { in_bag_kg: 8 }, { in_bag_kg: 2 }];
    const asks = [
      ...asked("spread.standing").map((args) => ["spread.standing", args] as const),
      ...asked("spread.close_pass").map((args) => ["spread.close_pass", args] as const),
      ...pouring.map((poured) => ["spread.pour", { ...pass, on_foot, ...poured }] as const),
    ];
    expect(asks.length).toBeGreaterThan(7);
    for (const [name, args] of asks) {
      const real = realEngine(name, args);
      const fake = FAKES[name](args);
      const facts = ({ error }: any) => error && { name: error.name, high: error.high };
      expect(facts(fake)).toEqual(facts(real));
      if (real.value) expect(close("value" in fake ? fake.value : {})).toEqual(close(real.value));
    }
  }, 30_000);
});

/** Figures to nine places: two languages add in two orders. */
const close = (value: object) =>
  JSON.parse(JSON.stringify(value, (_, one) => (typeof one === "number" ? Number(one.toFixed(9)) : one)));
