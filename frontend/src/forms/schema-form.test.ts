// @vitest-environment happy-dom
/** Forms that the contract and a table of words make: every table names fields there are, each in its unit and limits. */
import { describe, expect, it } from "vitest";
import "../app/kinds";
import { isoMoment } from "../format";
import { localOfMoment } from "../format/moment";
import { fakeBook, groups } from "../records/fake-book";
import { entryKinds } from "../records/log/registry";
import { createEntryForm } from "./entry-form";
import type { Filled } from "./fields";
import { createSchemaForm, type FormWords } from "./schema-form";

const NOW = "2026-05-14T18:00:00-04:00";
const ZONE = "018f0000-0000-7000-8000-00000000000c";
const GONE = "018f0000-0000-7000-8000-00000000000d";

function parts(system: "us" | "metric" = "us") {
  const store = fakeBook();
  store.put({ t: "zone", id: ZONE, groups: groups({ name: { name: "Verge" } }) });
  return { store, system: () => system, now: () => NOW, memberId: () => "me" };
}

const words = (fields: FormWords["fields"]): FormWords => ({ title: "T", save: "S", saved: "Done.", fields });

async function filled(fields: FormWords["fields"], typed: Record<string, Filled>, system?: "us" | "metric") {
  const made = parts(system);
  const form = createEntryForm(made, { kind: "mow", words: words(fields) });
  await form.open(undefined);
  form.change(typed);
  await form.save(undefined);
  return { ...made, form };
}

describe("a form of the contract", () => {
  it("stands for every kind that is added from the log, by names the contract has", async () => {
    const added = entryKinds().filter(({ add }) => add);
    expect(added.map(({ kind }) => kind)).toContain("observation");
    for (const { kind, words: load } of entryKinds()) {
      const { form } = await load();
      if (form) expect(createEntryForm(parts(), { kind, words: form }).fields.length).toBeGreaterThan(0);
      else expect(added.map((one) => one.kind)).not.toContain(kind);
    }
  });

  it("refuses a field the contract does not have: that is a fault of ours", () => {
    expect(() => createEntryForm(parts(), { kind: "mow", words: words({ height_mm: {} }) })).toThrow(
      "height_mm",
    );
  });

  it("asks in the person's own unit and writes SI", async () => {
    const { store, form } = await filled(
      { cut_height_mm: {} },
      { cut_height_mm: { amount: "3", unit: "height_in" } },
    );
    expect(form.errors.value).toEqual({});
    expect(store.saved[0]?.[0]?.body).toMatchObject({ kind: "mow", cut_height_mm: expect.closeTo(76.2, 9) });
  });

  it.each([
    ["us", "height_in", "0.1969 to 7.874\u00a0in"],
    ["metric", "height_mm", "5 to 200\u00a0mm"],
  ] as const)("says what is allowed in the unit of the field (%s)", async (system, unit, range) => {
    const { store, form } = await filled(
      { cut_height_mm: {} },
      { cut_height_mm: { amount: "9000", unit } },
      system,
    );
    expect(form.errors.value["cut_height_mm"]).toContain(`Allowed is ${range}.`);
    expect(store.saved).toEqual([]);
  });

  it("says what to do where something must be given, once it was tried", async () => {
    const made = parts();
    const fields = { zone_ids: { missing: "Choose at least one zone." }, note: {} };
    const form = createEntryForm(made, { kind: "mow", words: words(fields) });
    await form.open(undefined);
    expect(form.errors.value).toEqual({});
    await form.save(undefined);
    expect(form.errors.value).toEqual({ zone_ids: "Choose at least one zone." });
    form.change({ zone_ids: [ZONE], note: " dry " });
    await form.save(undefined);
    expect(made.store.saved[0]?.[0]).toMatchObject({
      body: { zone_ids: [ZONE] },
      set: { note: { note: "dry" } },
    });
  });

  it("keeps a moment where it was written as it stands there, and refuses none", async () => {
    const { store, form } = await filled({ occurred_at: {} }, { occurred_at: "" });
    expect(form.errors.value["occurred_at"]).toBe("Choose a day and a time.");
    expect(store.saved).toEqual([]);
  });

  it.each([
    [-48, undefined],
    [0, undefined],
    [23, undefined],
    [25, /in the future/],
    [24 * 365, /in the future/],
  ] as const)("takes a moment %i hours from now, or says what to choose: %s", async (hours, says) => {
    const at = localOfMoment(isoMoment(new Date(Date.now() + hours * 3_600_000)));
    const { form } = await filled({ occurred_at: {} }, { occurred_at: at });
    if (says) expect(form.errors.value["occurred_at"]).toMatch(says);
    else expect(form.errors.value).toEqual({});
  });

  it("writes nothing where what stands was not touched", async () => {
    let written = 0;
    const form = createSchemaForm(parts(), {
      key: "n",
      t: "entry",
      group: "note",
      words: words({ note: {} }),
      from: () => ({ note: "Dry" }),
      amends: true,
      write: async () => {
        written += 1;
        return {};
      },
    });
    await form.open(undefined);
    expect(await form.save(undefined)).toEqual({});
    form.change({ note: "Wet" });
    await form.save(undefined);
    expect(written).toBe(1);
  });

  const READING = {
    measures: {},
    temperature_c: { missing: "Enter it.", only: { of: "measures", is: ["soil", "air"] } },
    rain_mm: { only: { of: "measures", is: ["rain"] } },
  };

  it("asks for a field only where another is chosen so, and writes none that is not asked for", async () => {
    const made = parts();
    const form = createEntryForm(made, { kind: "reading", words: words(READING) });
    await form.open(undefined);
    const asked = () => form.asked.value.map(({ name }) => name);
    expect(asked()).toEqual(["measures", "temperature_c"]);
    form.change({ temperature_c: { amount: "57", unit: "deg_f" } });
    form.change({ measures: "rain", rain_mm: { amount: "0", unit: "height_in" } });
    expect(asked()).toEqual(["measures", "rain_mm"]);
    await form.save(undefined);
    const body = made.store.saved[0]?.[0]?.body;
    expect(body).toMatchObject({ measures: "rain", rain_mm: 0 });
    expect(body).not.toHaveProperty("temperature_c");
    expect(body).not.toHaveProperty("temperature_typed");
  });

  it("says nothing is missing of a field that is not asked for", async () => {
    const made = parts();
    const form = createEntryForm(made, { kind: "reading", words: words(READING) });
    await form.open(undefined);
    await form.save(undefined);
    expect(form.errors.value).toEqual({ temperature_c: "Enter it." });
    form.change({ measures: "rain" });
    expect(form.errors.value).toEqual({});
  });

  it.each([
    ["us", { amount: "2", unit: "height_in" }],
    ["metric", { amount: "50", unit: "height_mm" }],
  ] as const)("starts an amount at what is usual (%s)", async (system, usual) => {
    const fields = { depth_mm: { usual: { us: "2", metric: "50" } } };
    const form = createEntryForm(parts(system), { kind: "reading", words: words(fields) });
    await form.open(undefined);
    expect(form.form.value?.["depth_mm"]).toEqual(usual);
  });

  it("starts again as it was saved the last time, without zones that are gone", async () => {
    const made = parts();
    const again = { ...words({ depth_mm: {}, error_c: {}, zone_ids: {} }), again: ["depth_mm", "zone_ids"] };
    const open = async () => {
      const form = createEntryForm(made, { kind: "reading", words: again, given: { measures: "air" } });
      await form.open(undefined);
      return form;
    };
    const first = await open();
    const typed = { amount: "4", unit: "height_in" };
    first.change({ depth_mm: typed, error_c: { amount: "1", unit: "degrees_f" }, zone_ids: [ZONE, GONE] });
    await first.save(undefined);
    const next = (await open()).form.value;
    expect(next).toMatchObject({ depth_mm: typed, error_c: { amount: "" }, zone_ids: [ZONE] });
  });

  it.each(["41,6", "41,6°"])("reads %s degrees where a comma is usual", async (latitude) => {
    const made = parts("metric");
    let written: unknown;
    const form = createSchemaForm(made, {
      key: "p",
      t: "household",
      group: "place",
      words: words({ latitude_deg: {} }),
      write: async (value) => {
        written = value;
        return {};
      },
    });
    await form.open(undefined);
    form.change({ latitude_deg: latitude });
    await form.save(undefined);
    expect(written).toEqual({ latitude_deg: 41.6 });
  });
});
