/** The sums of a job: asked of the engine, and the stand-in of the other tests held to its answers. */
import { describe, expect, it } from "vitest";
import type { Args, CallName } from "../../../platform/engine";
import type { Said } from "../../../platform/engine/fake-engine";
import { realEngine } from "../../../platform/engine/real-engine";
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
  return { store, spreading, asked: answers.askedOf };
}

/** Each question of one call, with the stand-in's answer and the engine's. */
const both = <N extends CallName>(name: N, fake: (args: Args<N>) => Said<N>, asks: Args<N>[]) =>
  asks.map((args) => ({ fake: fake(args), real: realEngine(name, args) }));

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
    const answered = [
      ...both("spread.standing", stands, asked("spread.standing")),
      ...both("spread.close_pass", closes, asked("spread.close_pass")),
      ...both(
        "spread.pour",
        pours,
        pouring.map((poured) => ({ ...pass, on_foot, ...poured })),
      ),
    ];
    expect(answered.length).toBeGreaterThan(7);
    for (const { fake, real } of answered) {
      const { name, high } = real.error ?? {};
      if (real.error) expect(fake).toMatchObject({ error: { name, high } });
      else expect(close(fake)).toEqual(close(real.value));
    }
  }, 30_000);
});

/** Figures to nine places: two languages add in two orders. */
const close = (value: object) =>
  JSON.parse(JSON.stringify(value, (_, one) => (typeof one === "number" ? Number(one.toFixed(9)) : one)));
