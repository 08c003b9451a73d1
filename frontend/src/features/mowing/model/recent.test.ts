// @vitest-environment node
import { effect, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { dayAfter } from "../../../format";
import { realEngine } from "../../../platform/engine/real-engine";
import type { EngineCall } from "../../../platform/engine/types";
import { settled } from "../../../records/fake-book";
import { createDays } from "../../weather/model/days";
import { createRecent } from "./recent";

const DAY = "2026-07-14";

async function recent(monthly_mean_c?: number[]) {
  const yes = signal(true);
  const days = createDays({
    engine: { call: (async (name, args) => realEngine(name, args)) as EngineCall },
    day: () => DAY,
    place: {
      loaded: yes,
      place: signal({}),
      climate: signal(monthly_mean_c ? { monthly_mean_c } : {}),
      forecast: signal(false),
    },
    own: { loaded: yes, days: signal(new Map([[DAY, { date: DAY, min_c: 20, max_c: 34 }]])) },
    fetched: signal(undefined),
  });
  const model = createRecent({ days });
  const stop = effect(() => void model.value);
  for (let turn = 0; turn < 10; turn++) await settled();
  const said = model.value?.value ?? [];
  stop();
  return said;
}

describe("the warmth of the last days", () => {
  it("goes two weeks back and not beyond today, each day from the best that is known", async () => {
    const said = await recent([1, 3, 7, 11, 15, 19, 21, 20, 17, 11, 6, 2]);
    expect(said.map(({ date }) => date)).toEqual(
      Array.from({ length: 15 }, (_, at) => dayAfter(DAY, at - 14)),
    );
    expect(said.at(-1)).toEqual({ date: DAY, mean_c: 27 });
  });

  it("tells no more than the days somebody knows", async () => {
    expect(await recent()).toEqual([{ date: DAY, mean_c: 27 }]);
  });
});
