/** Can it burn? Said once for all the zones it is true of; who never spread anything is told to begin gently. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import type { Entry } from "../../../../records/entries";
import { fakeRow, groups, wholeBody } from "../../../../records/fake-book";
import type { CheckDay } from "../../../../records/limits/check";
import { rulesArgs } from "../../../../records/limits/rules";
import { type BurnJob, followBurns } from "./burn";

const TODAY = "2026-05-14";
const zones = ["front", "back"].map((id) =>
  fakeRow({ t: "zone", id, groups: groups({ grass: { grass: "tall_fescue" } }) }),
);
const household = fakeRow({ t: "household", id: "h", groups: groups({ rules: { rules_place: "us_mn" } }) });
const call = async (name: never, args: never) => realEngine(name, args);

async function burns(job: BurnJob, entries: readonly Entry[] = [], days: readonly CheckDay[] = []) {
  const rules = rulesArgs(household, zones);
  const asking = { job, zoneIds: ["front", "back"], zones, entries, days, rules, today: TODAY };
  const found = followBurns({ call: call as never }, () => asking);
  const stop = found.subscribe(() => undefined);
  await expect.poll(() => found.value).toBeDefined();
  stop();
  expect(found.value?.error).toBeUndefined();
  return found.value?.value ?? [];
}

function fed(zone_id: string, at: string, n_kg_m2: number): Entry {
  const zones = [{ zone_id, used_kg: 2, n_kg_m2 }];
  const body = wholeBody({ kind: "spread", zone_ids: [zone_id], sort: "fertilizer", zones, occurred_at: at });
  const row = fakeRow({ t: "entry", id: "fed", body });
  return {
    id: "fed",
    kind: "spread",
    at,
    by: undefined,
    zoneIds: [zone_id],
    body,
    struck: false,
    sick: [],
    pending: false,
    row,
  } as unknown as Entry;
}

describe("can it burn", () => {
  it("is one sentence for all zones it is true of, and tells a beginner to begin with a gentle product", async () => {
    const [line, ...others] = await burns({ n_kg_m2: 0.004, slow_n_share: 0 });
    expect(others).toEqual([]);
    expect(line).toMatchObject({ can_burn: "careful", zoneIds: ["front", "back"] });
    expect(line?.says).toContain("Begin with a gentle, slow-release product");
    expect(line?.working.length).toBeGreaterThan(0);
  });

  it("does not say so to who has spread before, and speaks of the zone that was fed lately by itself", async () => {
    const lines = await burns({ n_kg_m2: 0.004, slow_n_share: 0 }, [
      fed("back", "2026-05-03T10:00:00Z", 0.004),
    ]);
    expect(lines.map(({ zoneIds, can_burn }) => [zoneIds, can_burn])).toEqual([
      [["front"], "careful"],
      [["back"], "yes"],
    ]);
    expect(lines[0]?.says).not.toContain("Begin with");
  });

  it("goes by the heat where it is known", async () => {
    const days = Array.from({ length: 7 }, (_, at) => ({
      date: `2026-05-${String(8 + at).padStart(2, "0")}`,
      mean_c: 29,
    }));
    expect(await burns({ n_kg_m2: 0.004, slow_n_share: 0 }, [], days)).toMatchObject([{ can_burn: "yes" }]);
    expect(await burns({ n_kg_m2: 0.004, slow_n_share: 1 }, [], days)).toMatchObject([{ can_burn: "no" }]);
  });
});
