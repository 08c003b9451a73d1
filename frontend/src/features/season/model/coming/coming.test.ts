/** The steps that are next, and what the log that came by a merge has put in breach. */
import { describe, expect, it } from "vitest";
import { realEngine } from "../../../../platform/engine/real-engine";
import { type Entry, entryOf } from "../../../../records/entries";
import { fakeRow, groups, wholeBody } from "../../../../records/fake-book";
import { rulesArgs } from "../../../../records/limits/rules";
import { productOf } from "../../../../records/products";
import { comingSteps, followComing } from "./coming";

const TODAY = "2026-05-14";
const zone = fakeRow({ t: "zone", id: "front", groups: groups({ grass: { grass: "tall_fescue" } }) });
const label = { net_kg: 20, coverage_m2: 1000 };
const product = productOf(
  fakeRow({
    t: "product",
    id: "feed",
    groups: groups({
      name: { name: "Feed", sort: "fertilizer" },
      label,
      analysis: { n_percent: 10, slow_n_share: 1 },
      caution: { interval_days: 42 },
    }),
  }),
);

function step(id: string, from_on: string, state: string = "planned") {
  const product = { product_id: "feed", rate_kg_m2: 0.02 };
  const window = { from_on, to_on: from_on };
  return fakeRow({
    t: "step",
    id,
    groups: groups({
      job: { plan_id: "p", job: "feed" },
      window,
      product,
      ground: { zone_ids: ["front"] },
      state: { state },
    }),
  });
}

function fed(at: string, over: object = {}): Entry {
  const zones = [{ zone_id: "front", used_kg: 2, rate_kg_m2: 0.02, n_kg_m2: 0.002 }];
  const body = {
    kind: "spread",
    zone_ids: ["front"],
    product_id: "feed",
    sort: "fertilizer",
    slow_n_share: 1,
    zones,
  };
  return entryOf(
    fakeRow({ t: "entry", id: at, body: wholeBody({ ...body, occurred_at: `${at}T10:00:00Z`, ...over }) }),
  );
}

const ids = (rows: ReturnType<typeof step>[], log: Entry[] = []) =>
  comingSteps(rows, log, TODAY).map(({ id }) => id);

describe("the steps that are next", () => {
  it("are those of two weeks and what is overdue, the soonest first", () => {
    const rows = [step("later", "2026-05-29"), step("next", "2026-05-28"), step("late", "2026-05-01")];
    expect(ids(rows)).toEqual(["late", "next"]);
  });

  it("leave out what is done, put off, or tied to an entry that stands", () => {
    const rows = [step("a", TODAY, "done"), step("b", TODAY, "put_off"), step("c", TODAY)];
    expect(ids(rows)).toEqual(["c"]);
    expect(ids(rows, [fed(TODAY, { step_id: "c" })])).toEqual([]);
  });
});

describe("the rules of a step", () => {
  async function broken(log: Entry[]) {
    const steps = comingSteps([step("next", "2026-05-20")], log, TODAY);
    const home = fakeRow({ t: "household", id: "h", groups: groups({ rules: { rules_place: "us_mn" } }) });
    const rules = rulesArgs(home, [zone]);
    const asking = { steps, zones: [zone], entries: log, products: [product], days: [], rules, today: TODAY };
    const call = async (name: never, args: never) => realEngine(name, args);
    const found = followComing({ call: call as never }, () => asking);
    const stop = found.subscribe(() => undefined);
    await expect.poll(() => found.value).toBeDefined();
    stop();
    expect(found.value?.error).toBeUndefined();
    return (found.value?.value?.get("next") ?? []).map(({ kind, right_from }) => [kind, right_from]);
  }

  it("are kept while nothing speaks against it", async () => {
    expect(await broken([])).toEqual([]);
  });

  it("are broken once another phone's feed of 11 days before has come by a merge", async () => {
    expect(await broken([fed("2026-05-09")])).toEqual([["label_interval", "2026-06-20"]]);
  });
});
