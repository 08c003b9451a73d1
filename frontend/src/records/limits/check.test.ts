/** The log, the ground and the labels as the rules are asked about them. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../platform/engine/real-engine";
import type { Entry } from "../entries";
import { entryOf } from "../entries";
import { fakeRow, groups, wholeBody } from "../fake-book";
import { productOf } from "../products";
import { type CheckJob, checkProducts, checkZones, doneJobs } from "./check";

const TODAY = "2026-05-14";
const zone = fakeRow({
  t: "zone",
  id: "front",
  groups: groups({ grass: { grass: "tall_fescue" }, site: { sun: "shade" } }),
});
const product = (caution: object, sort = "fertilizer") =>
  productOf(
    fakeRow({
      t: "product",
      id: "feed",
      groups: groups({ name: { name: "Feed", sort }, label: { net_kg: 10 }, caution }),
    }),
  );

function spread(at: string, over: object = {}, share: object = {}): Entry {
  const zones = [{ zone_id: "front", used_kg: 2, rate_kg_m2: 0.02, n_kg_m2: 0.002, ...share }];
  const body = {
    kind: "spread",
    zone_ids: ["front"],
    product_id: "feed",
    sort: "fertilizer",
    zones,
    ...over,
  };
  return entryOf(
    fakeRow({ t: "entry", id: `at ${at}`, body: wholeBody({ ...body, occurred_at: `${at}T10:00:00Z` }) }),
  );
}

function broken(jobs: CheckJob[], caution: object, sort?: string) {
  const answer = realEngine("limits.check", {
    jobs,
    zones: checkZones([zone], [], TODAY),
    rules: [{ kind: "seed_after_pre", over_days: 112 }],
    products: checkProducts([product(caution, sort)]),
  });
  expect(answer.error).toBeUndefined();
  return answer.value?.breaches.map(({ kind, figure, ceiling }) => [kind, figure, ceiling]);
}

describe("the log as the rules are asked about it", () => {
  it("counts jobs of the last year that stand, with the most that any of their ground got", () => {
    const log = [
      spread("2026-05-03", {}, { n_most_kg_m2: 0.003 }),
      spread("2024-05-03"),
      spread("2026-04-01", {}, { used_kg: 0 }),
    ];
    expect(doneJobs(log, TODAY, ["front"])).toMatchObject([
      { date: "2026-05-03", zone: "front", n_kg_m2: 0.003 },
    ]);
    expect(doneJobs(log, TODAY, ["back"])).toEqual([]);
  });

  it("knows a zone's grass, its season and its shade", () => {
    expect(checkZones([zone], [], TODAY)).toEqual([
      { id: "front", grass: "tall_fescue", turf: "cool", shade: true, mows: [] },
    ]);
  });

  it("holds a job to the uses in a year that its label allows", () => {
    const next: CheckJob = { id: "next", date: TODAY, zone: "front", product: "feed", n_kg_m2: 0.001 };
    const jobs = [...doneJobs([spread("2026-01-03")], TODAY, ["front"]), next];
    expect(broken(jobs, { uses_year: 1 })).toEqual([["label_uses", 2, 1]]);
    expect(broken(jobs, { uses_year: 2 })).toEqual([]);
  });

  it("lets seed wait as long as the label of the pre-emergent says, and no longer", () => {
    const pre = spread("2026-03-01", { sort: "pre_emergent" });
    const seed: CheckJob = { id: "seed", date: TODAY, zone: "front", sort: "seed" };
    const jobs = [...doneJobs([pre], TODAY, ["front"]), seed];
    expect(broken(jobs, {}, "pre_emergent")).toEqual([["seed_after_pre", 74, 112]]);
    expect(broken(jobs, { seed_wait_days: 60 }, "pre_emergent")).toEqual([]);
  });
});
