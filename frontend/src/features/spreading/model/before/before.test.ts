/** A1 of the label and local rules: what speaks against a job is answered before it begins, and kept with its entry. */

import { effect, signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Settled, Table } from "../../../../platform/engine/fake-engine";
import { realEngine } from "../../../../platform/engine/real-engine";
import { groups, settled, wholeBody } from "../../../../records/fake-book";
import type { CheckDay } from "../../../../records/limits/check";
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

describe("the rules of the place before a job", () => {
  const HOME = "018f0000-0000-7000-8000-000000000001";
  const real = (over: Table = {}) =>
    asking({
      "limits.rules": (args) => realEngine("limits.rules", args),
      "limits.check": (args) => realEngine("limits.check", args),
      ...over,
    });

  async function stopped(
    rules: object,
    aim: Settled["label.aim"] = GENTLE,
    store = shelf(),
    days: CheckDay[] = [],
  ) {
    store.put({ t: "household", id: HOME, groups: groups({ name: { name: "Home" }, rules }) });
    const answers = real({ "label.aim": aim });
    const spreading = await chosen(store, answers, {
      household: () => HOME,
      weather: () => Promise.resolve(signal<readonly CheckDay[] | undefined>(days)),
    });
    const stop = effect(() => void spreading.stops.value);
    await expect.poll(() => spreading.stops.value).toBeDefined();
    const { broken = [], warnings = [], error } = spreading.stops.value ?? {};
    expect(error).toBeUndefined();
    return { spreading, broken, warnings, store, stop };
  }

  const closedNow = { kind: "closed", from: "05-01", to: "05-31", date: "2026-03-01" };

  it("stop it on a day that is closed, say until when, and keep the answer with its entry", async () => {
    const { spreading, broken, store } = await stopped({ rules_place: "us_mn", own_rules: [closedNow] });
    expect(broken).toMatchObject([{ kind: "closed", key: "rule:closed", right_from: "2026-06-01" }]);
    expect(broken[0]?.breaches).toMatchObject([
      { zone: "verge", source: "entered by you" },
      { zone: "long" },
    ]);
    expect(await spreading.setOff()).toBe(false);
    expect(spreading.refused.value).toContain("Answer each warning first");
    await spreading.change({ answers: { "rule:closed": "read" } });
    await spreading.setOff();
    await weighed(spreading, "0");
    await spreading.finish();
    const body = store.saved
      .flat()
      .map((item) => item.body as any)
      .find((one) => one?.kind === "spread");
    expect(body.answered).toMatchObject([
      {
        key: "rule:closed",
        kind: "closed",
        zone_ids: ["verge", "long"],
        right_from: "2026-06-01",
        answer: "read",
      },
    ]);
  });

  it("let pass what the place allows, and not what the strictest place forbids", async () => {
    const strong = { ...GENTLE, n_kg_m2: 0.004 };
    const quick = () => {
      const store = shelf();
      const of = store.rows("product").value[0];
      const analysis = { value: { n_percent: 23, slow_n_share: 0 }, version: "v2" };
      store.put({ t: "product", id: "slow", groups: { ...of?.groups, analysis } });
      return store;
    };
    const minnesota = await stopped({ rules_place: "us_mn" }, strong, quick());
    expect([minnesota.warnings, minnesota.broken]).toEqual([[], []]);
    const unknown = await stopped({}, strong, quick());
    expect(unknown.warnings.map(({ kind }) => kind)).toEqual(["quick"]);
  });

  it("say a thing once: what the log tells of the label's days is no second stop", async () => {
    const { warnings, broken } = await stopped({ rules_place: "us_mn" }, GENTLE, fedLately());
    expect(warnings).toMatchObject([{ kind: "interval", assumed: false, interval_days: 42 }]);
    expect(broken.map(({ kind }) => kind)).not.toContain("label_interval");
  });

  it("hold the weather against it where it is known", async () => {
    const days = [{ date: "2026-05-14", soil_c: -1 }];
    expect((await stopped({ rules_place: "us_mn" }, GENTLE, shelf(), days)).broken).toMatchObject([
      { kind: "frozen" },
    ]);
  });
});
