import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { fakeBook, groups } from "../../../records/fake-book";
import { createClimateForm } from "./climate";
import { createPlace, placeForm } from "./place";

const HOME = "018f0000-0000-7000-8000-000000000001";

function made() {
  const store = fakeBook();
  const climate = { warmest_c: 23, coldest_c: -3, climate_from: "two" };
  store.put({ t: "household", id: HOME, groups: groups({ name: { name: "Home" }, climate }) });
  const place = createPlace({ store, session: signal({ household: { id: HOME } }) });
  return { store, place, parts: { store, system: () => "us" as const } };
}

const f = (amount: string) => ({ amount, unit: "deg_f" });

describe("the form of the place", () => {
  it("keeps to 0.1°, as a group of the household", async () => {
    const { store, place, parts } = made();
    const form = placeForm(parts, place);
    await form.open(undefined);
    form.change({ latitude_deg: "-41.649", longitude_deg: "-70.12" });
    expect(await form.save(undefined)).toBeDefined();
    const set = { place: { latitude_deg: -41.6, longitude_deg: -70.1 } };
    expect(store.saved).toEqual([[{ t: "household", id: HOME, set }]]);
  });

  it("is taken back by saying what stood before, and never by removing the household", async () => {
    const { store, place, parts } = made();
    const form = placeForm(parts, place);
    await form.open(undefined);
    form.change({ latitude_deg: "41.6", longitude_deg: "-70.1" });
    const saved = await form.save(undefined);
    store.sent.add((saved as { op: string } | undefined)?.op ?? "");
    await saved?.back?.();
    expect(store.saved.at(-1)).toEqual([{ t: "household", id: HOME, set: { place: {} } }]);
  });

  it("keeps what was typed until it is saved", async () => {
    const { place, parts } = made();
    const form = placeForm(parts, place);
    await form.open(undefined);
    form.change({ latitude_deg: "41.6" });
    const again = placeForm(parts, place);
    await again.open(undefined);
    expect(again.form.value).toMatchObject({ latitude_deg: "41.6", longitude_deg: "" });
  });
});

describe("the form of the climate", () => {
  async function open() {
    const book = made();
    const form = createClimateForm(book.parts, book.place);
    await form.open(undefined);
    return { ...book, form };
  }

  it("starts as it stands, in the person's own unit", async () => {
    const { form } = await open();
    expect(form.form.value).toMatchObject({ way: "two", warmest: f("73.4"), coldest: f("26.6") });
  });

  it("says of a blank form nothing before the first try", async () => {
    const { form } = await open();
    form.change({ way: "months" });
    expect(form.errors.value).toEqual({});
    await form.save(undefined);
    expect(Object.keys(form.errors.value)).toHaveLength(12);
    expect(form.errors.value["month0"]).toBe("Enter the mean of January.");
  });

  it("refuses a coldest month above the warmest", async () => {
    const { form, store } = await open();
    form.change({ coldest: f("90") });
    await form.save(undefined);
    expect(form.errors.value["coldest_c"]).toContain("warmer than the warmest");
    expect(store.saved).toEqual([]);
  });

  it("keeps twelve months as stored and as typed, in place of the two", async () => {
    const { form, store } = await open();
    form.change({ way: "months", months: Array.from({ length: 12 }, () => f("50")) });
    await form.save(undefined);
    const climate = store.saved[0]?.[0]?.set?.["climate"] as { monthly_mean_c: number[] };
    expect(climate.monthly_mean_c).toHaveLength(12);
    expect(climate.monthly_mean_c[6]).toBeCloseTo(10, 9);
    expect(climate).toMatchObject({ climate_from: "months", climate_typed: { months: expect.any(Array) } });
    expect(climate).not.toHaveProperty("warmest_c");
  });
});
