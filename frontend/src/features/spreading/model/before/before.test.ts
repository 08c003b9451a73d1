/** A1 of the label and local rules: what speaks against a job is answered before it begins, and kept with its entry. */

import { effect } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Settled, Table } from "../../../../platform/engine/fake-engine";
import { realEngine } from "../../../../platform/engine/real-engine";
import { groups, settled, wholeBody } from "../../../../records/fake-book";
import { chosen, engine, passBodies, shelf, weighed } from "../fake-spreading";
import type { BeforeWarning } from "./before";

const asking = (over: Table = {}) =>
  engine({
    ...over,
    "limits.ceilings": (args) => realEngine("limits.ceilings", args),
    "record.before": (args) => realEngine("record.before", args),
  });

/** Fed 11 days before the job; the label asks for 42 days between. */
function fedLately() {
  const store = shelf();
  const zones = [{ zone_id: "verge", n_kg_m2: 0.001 }];
  const fed = wholeBody({
    kind: "spread",
    zone_ids: ["verge"],
    product_id: "slow",
    sort: "fertilizer",
    slow_n_share: 1,
    zones,
  });
  store.put({ t: "entry", id: "a", body: { ...fed, occurred_at: "2026-05-03T10:00:00+02:00" } });
  return store;
}

/** An amount that breaks no ceiling, so that the label's days alone speak. */
const GENTLE = {
  ...{ target_kg_m2: 0.01, mass_kg: 2, bags: 0.1, n_kg_m2: 0.001 },
  label_share: 0.2,
  load_most_kg: 10.2,
  over_label: false,
};

async function warned(store = fedLately(), aim: Settled["label.aim"] = GENTLE) {
  const spreading = await chosen(store, asking({ "label.aim": aim }));
  const stop = effect(() => void spreading.before.value);
  for (let k = 0; k < 5; k += 1) await settled();
  const warnings = spreading.before.value?.value?.warnings ?? [];
  return { spreading, store, warnings, stop };
}

const answerAll = (warnings: BeforeWarning[], answer = "read") =>
  Object.fromEntries(warnings.map(({ key }) => [key, answer]));

describe("warnings before a job", () => {
  it("does not begin inside the label's days until that is answered, and says from when it would be right", async () => {
    const { spreading, store, warnings } = await warned();
    expect(warnings).toMatchObject([
      {
        kind: "interval",
        assumed: false,
        interval_days: 42,
        right_from: "2026-06-14",
        zones: [{ days_between: 11 }],
      },
    ]);
    expect(await spreading.setOff()).toBe(false);
    expect(spreading.refused.value).toContain("Answer each warning first");
    expect(spreading.step.value).toBe("aim");
    await spreading.change({ answers: answerAll(warnings) });
    await spreading.setOff();
    expect(spreading.step.value).toBe("yard");
    await weighed(spreading, "0");
    expect(passBodies(store)).toHaveLength(1);
    await spreading.finish();
    const body = store.saved
      .flat()
      .map((item) => item.body as any)
      .find((one) => one?.kind === "spread");
    expect(body.answered).toMatchObject([
      {
        key: "interval:label:a",
        kind: "interval",
        zone_ids: ["verge"],
        right_from: "2026-06-14",
        answer: "read",
      },
    ]);
  });

  it("asks anew when another amount, product or ground is chosen", async () => {
    const { spreading, warnings } = await warned();
    await spreading.change({ answers: answerAll(warnings) });
    await spreading.change({ zone_ids: ["verge"] });
    expect(spreading.draft.value?.answers).toEqual({});
    expect(await spreading.setOff()).toBe(false);
  });

  it("warns of phosphate over the limit, and of quick nitrogen over the lowest published", async () => {
    const strong = { ...GENTLE, n_kg_m2: 0.006, p2o5_kg_m2: 0.002 };
    const { warnings } = await warned(shelf(), strong);
    expect(warnings.map(({ kind }) => kind).sort()).toEqual(["phosphate_once", "quick"]);
    expect(warnings.find(({ kind }) => kind === "quick")).toMatchObject({
      ceiling_kg_m2: 0.002441214,
      right_from: null,
    });
  });

  it("says nothing and keeps nothing where nothing speaks against it", async () => {
    const { spreading, store, warnings } = await warned(shelf());
    expect(warnings).toEqual([]);
    await spreading.setOff();
    await weighed(spreading, "0");
    await spreading.finish();
    const body = store.saved
      .flat()
      .map((item) => item.body as any)
      .find((one) => one?.kind === "spread");
    expect(body).not.toHaveProperty("answered");
  });

  it("counts no struck-out application", async () => {
    const store = fedLately();
    const body = store.rows("entry").value[0]?.body as object;
    store.put({ t: "entry", id: "a", body, groups: groups({ void: { void: true } }) });
    expect((await warned(store)).warnings).toEqual([]);
  });
});
